import type { LabId } from '@sthene/contract';
import { useFailures } from '../../data/methods.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { methodWords } from '../../words/methods.ts';
import { ShowMore, TrialLink } from './paged.tsx';

const t = methodWords.failures;

/** Trials a run could not judge, and why. */
export function FailuresPart({ lab, run }: { lab: LabId; run: string }) {
  const found = useFailures(lab, run);
  const rows = found.data?.pages.flatMap((page) => page.rows) ?? [];
  return (
    <section className="panel" aria-labelledby="run-failures">
      <h2 id="run-failures">{t.title}</h2>
      <p className="small soft">{t.text}</p>
      {found.isError && <ProblemCard error={found.error} onRetry={() => void found.refetch()} />}
      {rows.length > 0 && (
        <div className="table-scroll">
          <table className="method-list">
            <thead>
              <tr>
                <th scope="col">{t.head.trial}</th>
                <th scope="col">{t.head.why}</th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.trial}>
                  <th scope="row">
                    <TrialLink lab={lab} of={row} />
                  </th>
                  <td>
                    {row.words} <span className="small soft number">{row.code}</span>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      <ShowMore of={found} />
    </section>
  );
}
