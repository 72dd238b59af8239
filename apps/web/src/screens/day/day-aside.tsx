import type { Day, LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { Link } from 'react-router';
import { rigsQuery } from '../../data/rigs.ts';
import { RigLetter } from '../../parts/rig-letter.tsx';
import { dayWords as t } from '../../words/day.ts';
import { protocolWords } from '../../words/protocols.ts';
import { cautionsOf } from './begin-end.tsx';
import { HowItRuns } from './how-it-runs.tsx';
import { usePace } from './pace.ts';
import { forecastWords } from './standing.ts';

/** Beside the running order: who is next on which rig, the end of the day, the cautions. */
export function DayAside({ lab, day }: { lab: LabId; day: Day }) {
  const pace = usePace(lab, day);
  const forecast = forecastWords(day.forecast, pace);
  return (
    <aside className="day-aside">
      <Rigs lab={lab} day={day} />
      <HowItRuns lab={lab} day={day} />
      <section className="panel" aria-labelledby="forecast">
        <h2 id="forecast">{t.forecast.title}</h2>
        <p>{day.rigs.length === 0 ? t.forecast.noRig : forecast.end}</p>
        {forecast.savings.length > 0 && (
          <ul className="dots small soft">
            {forecast.savings.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        )}
        {day.status === 'open' && <p className="small soft">{day.awake.words}</p>}
      </section>
      <DayProtocols lab={lab} day={day} />
      <details className="panel day-cautions" open={day.status === 'planned'}>
        <summary>{t.cautions}</summary>
        <ul className="dots small">
          {cautionsOf(day).map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      </details>
    </aside>
  );
}

/** Which protocol version each test is run by, and what is done before the rig. */
function DayProtocols({ lab, day }: { lab: LabId; day: Day }) {
  if (day.protocols === undefined || day.protocols.length === 0) return null;
  return (
    <section className="panel" aria-labelledby="day-protocols">
      <h2 id="day-protocols">{protocolWords.title}</h2>
      {day.protocols.map(({ sha256, document }) => (
        <div key={sha256}>
          <Link to={`/${lab}/protocols/${sha256}`}>{protocolWords.choice.option(document.name, document.version)}</Link>
          {document.warmUp.steps.length > 0 && (
            <ol className="dots small">
              {document.warmUp.steps.map((one) => (
                <li key={one}>{one}</li>
              ))}
            </ol>
          )}
        </div>
      ))}
    </section>
  );
}

function Rigs({ lab, day }: { lab: LabId; day: Day }) {
  const rigs = useQuery(rigsQuery(lab));
  const mine = (rigs.data ?? []).filter(({ id }) => day.rigs.includes(id));
  const nameOf = (entry: string | undefined) => day.entries.find(({ id }) => id === entry)?.person.name;
  return (
    <section className="panel" aria-labelledby="rigs">
      <h2 id="rigs">{t.rigs.title}</h2>
      {day.rigs.length === 0 && (
        <p className="soft">
          {t.rigs.none} <Link to={`/${lab}/rig`}>{t.plan.setUpRig}</Link>
        </p>
      )}
      <ul className="day-rigs">
        {mine.map((rig) => {
          const next = day.next.find((one) => one.rig === rig.id);
          const now = day.entries.find((one) => one.rig === rig.id && one.state === 'on-rig');
          const name = nameOf(next?.entry);
          return (
            <li key={rig.id}>
              <RigLetter letter={rig.letter} shape={rig.shape} />
              <div>
                <Link to={`/${lab}/rig/${rig.id}`}>
                  <b>{rig.name}</b>
                </Link>
                <p className="small soft">{rig.words}</p>
                {now && <p>{t.rigs.now(now.person.name)}</p>}
                {day.status === 'open' && <p>{name === undefined ? t.rigs.nobody : t.rigs.next(name)}</p>}
                {next && <p className="small soft">{next.words}</p>}
                {rig.virtual && <p className="small soft">{t.rigs.virtual(rig.virtual.speed)}</p>}
                <div className="acts">
                  <Link className="button" to={`/${lab}/floor/${rig.id}`} aria-label={t.rigs.floorOf(rig.name)}>
                    {t.rigs.floor}
                  </Link>
                  <Link className="button" to={`/${lab}/wall/${rig.id}`} aria-label={t.rigs.wallOf(rig.name)}>
                    {t.rigs.wall}
                  </Link>
                </div>
              </div>
            </li>
          );
        })}
      </ul>
    </section>
  );
}
