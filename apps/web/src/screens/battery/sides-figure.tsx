import type { LabId, Ratio, RatioComponent } from '@sthene/contract';
import { Link } from 'react-router';
import { whenText } from '../../number/when.ts';
import { Drawn } from '../../parts/drawn.tsx';
import { batteryWords as t } from '../../words/battery.ts';
import { valueText } from '../athletes/values.ts';
import { testTitle } from '../trial/test-title.ts';
import { errorText } from './values.ts';

/** The sides of a ratio, one below the other on one scale from nothing: a bar each, with its typical error as a whisker. */
export function SidesFigure({ lab, ratio }: { lab: LabId; ratio: Ratio }) {
  const { components } = ratio;
  const reach = Math.max(...components.map(({ value, error = 0 }) => value + error));
  return (
    <div className="battery-sides">
      <h3>{components.length > 2 ? t.threeSides : t.sides}</h3>
      {components.map((side) => (
        <Side key={side.role} lab={lab} side={side} reach={reach} />
      ))}
    </div>
  );
}

function Side({ lab, side, reach }: { lab: LabId; side: RatioComponent; reach: number }) {
  const { role, value, error, unit, test, n, maximal, at, session, errorFrom } = side;
  return (
    <div className="battery-side">
      <p className="battery-side-head">
        <span>{t.role[role]}</span>
        <strong className="number">
          {valueText(value, unit)}
          {error !== undefined && <span className="soft"> {errorText(error, value, unit)}</span>}
        </strong>
      </p>
      <Bar value={value} error={error} reach={reach} role={role} />
      <p className="small soft">
        {t.sideNote(testTitle(test), n, maximal)};{' '}
        <Link to={`/${lab}/sessions/${session}`} aria-label={`${t.role[role]}: ${t.sessionOf(whenText(at, false))}`}>
          {whenText(at, false)}
        </Link>
        ; {errorFrom === undefined ? t.noErrorFrom : t.errorFrom[errorFrom]}
      </p>
    </div>
  );
}

interface BarProps {
  readonly value: number;
  readonly error: number | undefined;
  readonly reach: number;
  readonly role: RatioComponent['role'];
}

const [height, middle] = [18, 9];

/** The text above says the same. */
function Bar({ value, error, reach, role }: BarProps) {
  return (
    <Drawn className="battery-drawn" height={height}>
      {(width) => {
        const x = (one: number) => (one / reach) * (width - 2) + 1;
        const [low, high] = [x(value - (error ?? 0)), x(value + (error ?? 0))];
        const whisker = `M${low} ${middle}H${high}M${low} ${middle - 4}v8M${high} ${middle - 4}v8`;
        return (
          <>
            <rect className="axes-ground" x={0.5} y={0.5} width={width - 1} height={height - 1} />
            <rect className={`battery-bar ${role}`} x={1} y={4} width={x(value) - 1} height={10} />
            {error !== undefined && (
              <>
                <path className="battery-whisker ground" d={whisker} />
                <path className="battery-whisker" d={whisker} />
              </>
            )}
          </>
        );
      }}
    </Drawn>
  );
}
