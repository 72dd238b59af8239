import type { LabId, SessionView, TrialRow } from '@sthene/contract';
import { headlineMetric, metricFacts } from '@sthene/core';
import { Link } from 'react-router';
import { quantityText } from '../../number/format.ts';
import { StateMark } from '../../parts/state-mark.tsx';
import { words } from '../../words/index.ts';
import { sessionWords } from '../../words/session-list.ts';
import { peakText } from './session-table.tsx';

/** The trials of a session; excluded ones stay, crossed out. */
export function TrialTable({ lab, session }: { lab: LabId; session: SessionView }) {
  const t = sessionWords.session;
  const ranked = metricFacts.get(headlineMetric(session.protocol));
  const jumps = ranked?.id === 'peak_force' ? undefined : ranked;
  if (session.rows.length === 0) return <p className="soft">{t.noTrials}</p>;
  return (
    <section aria-labelledby="session-trials">
      <h2 id="session-trials">{t.trials}</h2>
      <table className="list trials">
        <thead>
          <tr>
            <th scope="col">{t.head.trial}</th>
            <th scope="col">{t.head.state}</th>
            <th scope="col" className="right">
              {jumps ? jumps.title : t.head.peak}
            </th>
            {!jumps && (
              <th scope="col" className="right">
                {t.head.rate}
              </th>
            )}
            <th scope="col">{t.head.worst}</th>
          </tr>
        </thead>
        <tbody>
          {[...session.rows]
            .sort((a, b) => a.order - b.order)
            .map((row) => (
              <tr key={row.id} data-state={row.state}>
                <th scope="row">
                  <Link className="row-link" to={`/${lab}/trials/${row.id}`}>
                    {t.open(row.order)}
                  </Link>
                  {row.effort !== 'maximal' && <span className="small soft"> {words.effort[row.effort]}</span>}
                </th>
                <td className="verdict-cell">
                  <StateMark state={row.state} />
                </td>
                {jumps ? (
                  <td className="number peak-cell" data-label={jumps.title}>
                    <Value row={row} value={row.headline?.value} unit={row.headline?.unit ?? jumps.unit} />
                  </td>
                ) : (
                  <>
                    <td className="number peak-cell" data-label={t.head.peak}>
                      <Value row={row} value={row.peakForce} unit={row.unit} />
                    </td>
                    <td className="number rate" data-label={t.head.rate}>
                      <Value row={row} value={row.rateOfForceDevelopment200} unit={`${row.unit}/s`} />
                    </td>
                  </>
                )}
                <td className="soft finding" data-label={t.head.worst}>
                  {row.worst ?? t.nothing}
                </td>
              </tr>
            ))}
        </tbody>
      </table>
    </section>
  );
}

function Value({ row, value, unit }: { row: TrialRow; value: number | undefined; unit: string }) {
  if (value === undefined) return <span className="soft">{sessionWords.session.none}</span>;
  const text = unit.endsWith('/s') ? quantityText(value, unit, { sampleRate: 1000 }) : peakText(value, unit);
  return row.state === 'excluded' ? <s>{text}</s> : text;
}
