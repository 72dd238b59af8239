import type { LabId, SessionRow } from '@sthene/contract';
import { metricFacts } from '@sthene/core';
import { Link } from 'react-router';
import { quantityText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { StateCount } from '../../parts/state-mark.tsx';
import { words } from '../../words/index.ts';
import { sessionWords as t } from '../../words/session-list.ts';
import { sessionTitle } from '../trial/test-title.ts';
import { ResultsOnly } from './results-only.tsx';

/** A summary over trials carries no more digits than a whole newton, or three significant ones elsewhere. */
export const peakText = (value: number, unit: string) => quantityText(value, unit, { sampleRate: 1000, noise: 1 });

/** The list as a table; each row is one link. */
export function SessionTable({ lab, rows, stale }: { lab: LabId; rows: readonly SessionRow[]; stale: boolean }) {
  return (
    <table className="list" data-stale={stale}>
      <caption className="unseen">{t.table}</caption>
      <thead>
        <tr>
          <th scope="col">{t.head.person}</th>
          <th scope="col">{t.head.test}</th>
          <th scope="col">{t.head.when}</th>
          <th scope="col">{t.head.trials}</th>
          <th scope="col" className="right">
            {t.head.peak}
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.id}>
            <th scope="row">
              <Link to={`/${lab}/sessions/${row.id}`} className="row-link">
                {row.person.name}
              </Link>{' '}
              <span className="small soft code">{row.person.code}</span>
            </th>
            <td className="test">{sessionTitle(row)}</td>
            <td className="when">{whenText(row.startedAt, row.received?.timeKnown ?? true)}</td>
            <td className="states">
              <States row={row} />
            </td>
            <td className="right peak">
              <Peak row={row} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function States({ row }: { row: SessionRow }) {
  if (row.received) return <ResultsOnly label={row.received.methodLabel} />;
  if (row.trials === 0) return <span className="soft">{words.sessions.trials(0)}</span>;
  return (
    <span className="state-counts">
      {row.counting > 0 && <StateCount state="counts" n={row.counting} />}
      {row.lookAgain > 0 && <StateCount state="look-again" n={row.lookAgain} />}
      {row.repeat > 0 && <StateCount state="repeat" n={row.repeat} />}
      {row.excluded > 0 && <StateCount state="excluded" n={row.excluded} />}
    </span>
  );
}

function Peak({ row }: { row: SessionRow }) {
  if (row.received) return null;
  const shown = row.peakForce ?? row.headline;
  if (!shown) return <span className="soft">{t.noPeak}</span>;
  const { value, unit, n } = shown;
  return (
    <>
      {row.headline && <span className="small soft">{metricFacts.get(row.headline.metric)?.title} </span>}
      <span className="number">{peakText(value, unit)}</span> <span className="small soft number">{t.n(n)}</span>
    </>
  );
}

/** The shape of the list while it is on its way. */
export function TableSkeleton() {
  return (
    <>
      <p className="unseen" role="status">
        {words.app.loading}
      </p>
      <div className="list-bones" aria-hidden="true">
        {Array.from({ length: 9 }, (_, i) => (
          <span className="bone" key={i} />
        ))}
      </div>
    </>
  );
}
