import type { AthleteSession, AthleteView, LabId } from '@sthene/contract';
import { Link } from 'react-router';
import { whenText } from '../../number/when.ts';
import { athleteWords } from '../../words/athletes.ts';
import { valueText } from '../athletes/values.ts';

/** Every session of the test with its value and what is unlike the newest. */
export function SessionsPart({ lab, view }: { lab: LabId; view: AthleteView }) {
  const t = athleteWords.table;
  if (view.sessions.length === 0) return null;
  const newest = view.sessions.findLast(({ value }) => value !== undefined)?.id;
  return (
    <section aria-labelledby="follow-sessions">
      <h2 id="follow-sessions">{t.title}</h2>
      <table className="list follow-sessions">
        <thead>
          <tr>
            <th scope="col">{t.head.when}</th>
            <th scope="col" className="right">
              {t.head.value}
            </th>
            <th scope="col" className="right">
              {t.head.sd}
            </th>
            <th scope="col" className="right">
              {t.head.n}
            </th>
            <th scope="col">{t.head.note}</th>
          </tr>
        </thead>
        <tbody>
          {view.sessions.toReversed().map((one) => (
            <tr key={one.id}>
              <th scope="row">
                <Link className="row-link" to={`/${lab}/sessions/${one.id}`}>
                  {whenText(one.at, false)}
                </Link>
              </th>
              <td className="right number peak">
                {one.value === undefined ? (
                  <span className="soft">{t.none}</span>
                ) : (
                  valueText(one.value, one.unit ?? view.metric.unit)
                )}
              </td>
              <td className="right number" data-label={one.sd === undefined ? undefined : t.head.sd}>
                {one.sd === undefined ? '' : valueText(one.sd, one.unit ?? view.metric.unit)}
              </td>
              <td className="right number" data-label={t.head.n}>
                {t.of(one.n, one.maximal)}
              </td>
              <td className="soft follow-note">{noteOf(one, view, newest)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function noteOf(one: AthleteSession, { best }: AthleteView, newest: string | undefined): string {
  const t = athleteWords.table;
  const notes = [
    ...(one.id === newest ? [t.newest] : []),
    ...(one.id === best ? [t.best] : []),
    ...(one.familiarisation ? [t.first] : []),
    ...(one.unlike.length > 0 ? [t.differs(one.unlike)] : []),
  ];
  return notes.length === 0 ? t.alike : notes.join('; ');
}
