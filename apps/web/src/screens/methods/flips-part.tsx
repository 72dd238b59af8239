import type { LabId } from '@sthene/contract';
import { useFlips } from '../../data/methods.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { methodWords } from '../../words/methods.ts';
import { ShowMore, TrialLink } from './paged.tsx';
import { VerdictChange } from './preview-part.tsx';

const t = methodWords.flips;
const statusText = (status: string): string => t.status[status] ?? status;

/** Verdicts a run changes, each with the checks that make the difference. */
export function FlipsPart({ lab, run }: { lab: LabId; run: string }) {
  const found = useFlips(lab, run, true);
  const counted = (found.data?.pages[0]?.counted ?? []).filter(({ from, to }) => from !== to);
  const rows = found.data?.pages.flatMap((page) => page.rows) ?? [];
  return (
    <section className="panel" aria-labelledby="run-flips" aria-busy={found.isFetching}>
      <h2 id="run-flips">{t.title}</h2>
      {found.isPending && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {found.isError && <ProblemCard error={found.error} onRetry={() => void found.refetch()} />}
      {found.data && counted.length === 0 && <p className="soft">{t.none}</p>}
      {counted.length > 0 && (
        <ul className="flip-counts">
          {counted.map(({ from, to, trials }) => (
            <li key={`${from} ${to}`}>{t.counted(trials, words.state[from], words.state[to])}</li>
          ))}
        </ul>
      )}
      {rows.length > 0 && (
        <div className="table-scroll flip-rows">
          <table className="method-list">
            <thead>
              <tr>
                <th scope="col">{t.head.trial}</th>
                <th scope="col">{t.head.to}</th>
                <th scope="col">{t.head.checks}</th>
              </tr>
            </thead>
            <tbody>
              {rows.map((row) => (
                <tr key={row.trial}>
                  <th scope="row">
                    <TrialLink lab={lab} of={row} />
                  </th>
                  <td>
                    <VerdictChange from={row.from} to={row.to} />
                    {row.decided && <span className="small soft">{t.decided}</span>}
                  </td>
                  <td className="small">
                    {row.checks.length === 0
                      ? t.noCheck
                      : row.checks
                          .map(({ title, from, to }) => t.check(title, statusText(from), statusText(to)))
                          .join('; ')}
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
