import type { RigChecksView } from '@sthene/contract';
import { type FollowedQuantity, followedQuantities } from '@sthene/core';
import { useRef } from 'react';
import { numberText, signedText } from '../../../number/format.ts';
import { whenText } from '../../../number/when.ts';
import { Axes } from '../../../parts/axes.tsx';
import { useWidth } from '../../../parts/use-width.ts';
import { rigCheckWords } from '../../../words/rig-check.ts';
import { timeScale, valueScale } from '../../athletes/plot-scale.ts';

type History = RigChecksView['history'][number];

const t = rigCheckWords.history;
const height = 128;

/** Gain, zero and noise of one plate over its checks, each between its limits; the newest point is open. */
export function TrendFigures({ history }: { history: History }) {
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  return (
    <section className="trend-plate" aria-label={rigCheckWords.plate(history.plate)}>
      <h3>{rigCheckWords.plate(history.plate)}</h3>
      <div ref={host} className="error-figure trend-figures">
        {width > 0 && followedQuantities.map((id) => <Strip key={id} of={id} history={history} width={width} />)}
      </div>
    </section>
  );
}

function Strip({ of, history, width }: { of: FollowedQuantity; history: History; width: number }) {
  const points = history.points.flatMap((one) => {
    const value = one[of];
    return value === undefined ? [] : [{ at: one.at, value }];
  });
  const newest = points.at(-1);
  const [first] = points;
  if (newest === undefined || first === undefined) return null;
  const limit = history.limits[of];
  // Noise has no sign.
  const levels = limit === undefined ? [] : of === 'noise' ? [limit] : [limit, -limit];
  const edges = { left: 52, right: width - 10, top: 8, bottom: height - 26 };
  const y = valueScale([0, ...levels, ...points.map(({ value }) => value)], edges.bottom, edges.top);
  // Alike for all three, so that a check stands above itself.
  const x = timeScale(
    history.points.map(({ at }) => Date.parse(at)),
    edges.left + 6,
    edges.right - 6,
    Math.max(2, Math.floor(width / 70)),
  );
  const placed = points.map(({ at, value }) => [x.at(Date.parse(at)), y.at(value), at] as const);
  const text = of === 'noise' ? numberText(newest.value, 2) : signedText(newest.value, 2);
  const said = t.figure(t.followed[of], points.length, whenText(first.at, false), whenText(newest.at, false), text);
  return (
    <figure>
      <figcaption className="small">
        {t.followed[of]} <span className="soft number">{text}</span>
      </figcaption>
      <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={said}>
        <Axes
          edges={edges}
          up={y.marks}
          along={x.ticks.map(({ at, text: tick }) => ({ at: x.at(at), text: tick }))}
          upright={false}
        />
        {levels.map((level) => (
          <line key={level} className="limit" x1={edges.left} x2={edges.right} y1={y.at(level)} y2={y.at(level)} />
        ))}
        <path
          d={placed.map(([a, b], i) => `${i === 0 ? 'M' : 'L'}${a.toFixed(1)} ${b.toFixed(1)}`).join('')}
          className="up"
        />
        {placed.map(([a, b, at], i) => (
          <circle
            key={at}
            cx={a}
            cy={b}
            r={i === placed.length - 1 ? 4.5 : placed.length > 12 ? 2 : 3}
            className={i === placed.length - 1 ? 'up-point newest' : 'up-point'}
          >
            <title>{`${whenText(at, false)}`}</title>
          </circle>
        ))}
      </svg>
    </figure>
  );
}
