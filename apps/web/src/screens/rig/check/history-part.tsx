import type { LabId, RigChecksView, RigView } from '@sthene/contract';
import { Link } from 'react-router';
import { numberText, signedText } from '../../../number/format.ts';
import { whenText } from '../../../number/when.ts';
import { rigCheckWords } from '../../../words/rig-check.ts';
import { StandingMark } from '../standing-mark.tsx';
import { newtonText, standingOfVerdict } from './check-text.ts';
import { TrendFigures } from './trend-figure.tsx';

const t = rigCheckWords.history;

/** When the next check is due, how the gain wanders, and every check that was made. */
export function HistoryPart({
  lab,
  rig,
  checks,
  shown,
}: {
  lab: LabId;
  rig: RigView;
  checks: RigChecksView;
  shown: string | undefined;
}) {
  const { due } = checks;
  return (
    <section className="panel" aria-labelledby="check-history">
      <h2 id="check-history">{t.title}</h2>
      {checks.checks.length > 0 && <p>{t.due[due.standing](due.at === undefined ? '' : whenText(due.at, false))}</p>}
      {checks.checks.length > 0 && <TrendPart checks={checks} />}
      {checks.trend.map(({ plate, perYear, error, n }) => (
        <p key={plate}>{t.trend(plate, signedText(perYear, 2), numberText(error, 2), n)}</p>
      ))}
      {checks.checks.length === 0 ? (
        <p className="soft">{t.none}</p>
      ) : (
        <ul className="check-list">
          {checks.checks.map((one) => (
            <li key={one.id} aria-current={one.id === shown ? 'true' : undefined}>
              <StandingMark
                standing={standingOfVerdict[one.result.verdict]}
                word={rigCheckWords.verdictShort[one.result.verdict]}
              />
              <span>
                {whenText(one.at)}, {t.by(one.by)}
              </span>
              <span className="number">{t.upTo(newtonText(one.result.checkedTo))}</span>
              <span className="small soft">
                {one.result.quantities
                  .filter(({ id }) => id === 'gain')
                  .map(({ plate, value }) => `${plate} ${signedText(value, 2)}\u00a0%`)
                  .join(', ')}
              </span>
              {one.id !== shown && (
                <Link className="button quiet" to={`/${lab}/rig/${rig.id}/check?of=${one.id}`}>
                  {t.look}
                </Link>
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

/** Each plate over its checks; from one check alone there is no trend. */
function TrendPart({ checks }: { checks: RigChecksView }) {
  const shown = checks.history.filter(({ points }) => points.length > 1);
  if (shown.length === 0) return <p className="soft">{t.noTrend}</p>;
  return (
    <>
      <p className="small soft">{t.trendHelp}</p>
      <div className="check-plates">
        {shown.map((history) => (
          <TrendFigures key={history.plate} history={history} />
        ))}
      </div>
    </>
  );
}
