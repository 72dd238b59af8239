import type { ChangeWordCode, HandedOutOfRun, LabId } from '@sthene/contract';
import { Link } from 'react-router';
import { useHandedOut } from '../../data/methods.ts';
import { whenText } from '../../number/when.ts';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { words } from '../../words/index.ts';
import { methodWords } from '../../words/methods.ts';
import { inSentence } from '../../words/title.ts';
import { wordText } from '../athletes/change-word.ts';
import { valueText } from '../athletes/values.ts';

type Page = HandedOutOfRun['rows'][number];

/** Pages that are in somebody's hands and would read differently. */
export function HandedOutPart({ lab, run }: { lab: LabId; run: string }) {
  const t = methodWords.reports;
  const found = useHandedOut(lab, run);
  const { data } = found;
  return (
    <section className="panel" aria-labelledby="run-reports" aria-busy={found.isFetching}>
      <h2 id="run-reports">{t.title}</h2>
      <p className="small soft">{t.text}</p>
      {found.isPending && (
        <p className="soft" role="status">
          {words.app.loading}
        </p>
      )}
      {found.isError && <ProblemCard error={found.error} onRetry={() => void found.refetch()} />}
      {data && (
        <p>
          {data.pages === 0
            ? t.none
            : data.rows.length === 0
              ? t.alike(data.pages)
              : t.counted(data.otherWord, data.otherNumber, data.pages)}
        </p>
      )}
      {data && data.rows.length > 0 && (
        <div className="table-scroll flip-rows">
          <table className="method-list">
            <thead>
              <tr>
                <th scope="col">{t.head.page}</th>
                <th scope="col">{t.head.was}</th>
                <th scope="col">{t.head.now}</th>
              </tr>
            </thead>
            <tbody>
              {data.rows.map((row) => (
                <tr key={row.id}>
                  <th scope="row">
                    <Link
                      to={`/${lab}/athletes/${row.person.id}?${new URLSearchParams({ test: row.test, metric: row.metric.id })}`}
                    >
                      {t.page(row.person.name, inSentence(row.metric.title), whenText(row.at, false))}
                    </Link>{' '}
                    <span className="small soft">{t.kind[row.kind]}</span>
                  </th>
                  <td>{saysText(row, row.was)}</td>
                  <td>{saysText(row, row.now)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </section>
  );
}

function saysText(row: Page, { value, word }: Page['now']): string {
  const t = methodWords.reports;
  const said = word === undefined ? t.noWord : wordText(word as ChangeWordCode, row);
  return `${value === undefined ? t.noValue : valueText(value, row.metric.unit)}, ${said.toLowerCase()}`;
}
