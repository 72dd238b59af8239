import type { BatteryView, LabId, ProfileFacts } from '@sthene/contract';
import { Link } from 'react-router';
import { numberText } from '../../number/format.ts';
import { whenText } from '../../number/when.ts';
import { batteryWords } from '../../words/battery.ts';
import { valueText } from '../athletes/values.ts';
import { ProfilePlot } from './profile-plot.tsx';
import { PushOffField } from './push-off-field.tsx';

interface PartProps {
  readonly lab: LabId;
  readonly profile: BatteryView['profile'];
  /** What is asked for, cm, as it stands in the address. */
  readonly pushOff: string;
  readonly onPushOff: (centimetres: string) => void;
}

const t = batteryWords.profile;
const velocityText = (value: number): string => `${numberText(value, 2)}\u00a0m/s`;

/** Force and velocity of loaded jumps: the points, the line, how well it fits and how few loads it rests on. */
export function ProfilePart({ lab, profile, pushOff, onPushOff }: PartProps) {
  const { current, lack, history } = profile;
  return (
    <section
      className={`panel battery-ratio battery-profile ${current ? '' : 'without'}`}
      aria-labelledby="battery-profile"
    >
      <div className="battery-said">
        <h2 id="battery-profile">{t.title}</h2>
        {lack && (
          <p className="battery-lack">
            {lack.reason === 'too-few-loads' ? t.lack[lack.reason](lack.loads, lack.needed) : t.lack[lack.reason]}{' '}
            {lack.loadMissing > 0 && lack.reason !== 'loads-not-written' && t.loadMissing(lack.loadMissing)}
          </p>
        )}
        {current?.line && <Line line={current.line} loads={current.points.length} />}
        {lack?.reason !== 'no-loads' && lack?.reason !== 'loads-not-written' && (
          <PushOffField
            given={pushOff}
            placeholder={current && numberText(100 * current.pushOff, 1)}
            help={
              <>
                {current && `${numberText(100 * current.pushOff, 1)} cm, ${t.pushOffIs[current.pushOffFrom]}. `}
                {t.pushOffHelp}
              </>
            }
            onChange={onPushOff}
          />
        )}
        {current && <p className="small soft">{t.about}</p>}
      </div>
      {current && (
        <>
          <ProfilePlot facts={current} />
          <Points lab={lab} facts={current} />
        </>
      )}
      {history.length > 1 && (
        <div>
          <h3>{t.earlier}</h3>
          <ul className="battery-mind small">
            {history
              .slice(0, -1)
              .toReversed()
              .map(({ at, f0, v0, powerMax, r2, loads }) => (
                <li key={at}>
                  {whenText(at, false)}: {valueText(f0, 'N')}, {velocityText(v0)}, {valueText(powerMax, 'W')}; r²{' '}
                  {numberText(r2, 3)}, {t.loads(loads)}
                </li>
              ))}
          </ul>
        </div>
      )}
    </section>
  );
}

function Line({ line, loads }: { line: NonNullable<ProfileFacts['line']>; loads: number }) {
  const units = { f0: 'N', v0: 'm/s', powerMax: 'W' } as const;
  return (
    <>
      <dl className="battery-facts">
        {(Object.keys(units) as (keyof typeof units)[]).map((key) => {
          const { low, high } = line.intervals[key];
          return (
            <div key={key}>
              <dt>{t.facts[key]}</dt>
              <dd>
                <strong className="number">{valueText(line[key], units[key])}</strong>{' '}
                <span className="small soft">
                  {t.interval(valueText(low, units[key]), valueText(high, units[key]))}
                </span>
              </dd>
            </div>
          );
        })}
        <div>
          <dt>{t.facts.r2}</dt>
          <dd>
            <strong className="number">{numberText(line.r2, 3)}</strong>
          </dd>
        </div>
      </dl>
      <p className="small">
        {t.few(loads)} {!line.accepted && t.loose}
      </p>
    </>
  );
}

function Points({ lab, facts }: { lab: LabId; facts: ProfileFacts }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a box that scrolls must be reachable by keyboard
    <section className="battery-points" tabIndex={0} aria-label={t.points}>
      <table className="list">
        <thead>
          <tr>
            <th scope="col">{t.head.load}</th>
            <th scope="col">{t.head.height}</th>
            <th scope="col">{t.head.force}</th>
            <th scope="col">{t.head.velocity}</th>
            <th scope="col">{t.head.when}</th>
          </tr>
        </thead>
        <tbody>
          {facts.points.map(({ load, height, force, velocity, session, at }) => (
            <tr key={session}>
              <th scope="row" className="number">
                {t.load(numberText(load, load % 1 === 0 ? 0 : 1))}
              </th>
              <td className="number" data-label={t.head.height}>
                {valueText(height, 'm')}
              </td>
              <td className="number" data-label={t.head.force}>
                {valueText(force, 'N')}
              </td>
              <td className="number" data-label={t.head.velocity}>
                {velocityText(velocity)}
              </td>
              <td>
                <Link to={`/${lab}/sessions/${session}`}>{whenText(at, false)}</Link>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
