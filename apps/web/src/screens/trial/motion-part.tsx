import type { Curve } from '@sthene/contract';
import { useMemo, useRef } from 'react';
import { numberText } from '../../number/format.ts';
import { Axes } from '../../parts/axes.tsx';
import { useWidth } from '../../parts/use-width.ts';
import { words } from '../../words/index.ts';
import { valueScale } from '../athletes/plot-scale.ts';
import { motionLines, type Points } from './motion-lines.ts';
import type { Result } from './numbers.ts';
import './motion.css';

/** How the body moved in a jump: velocity, position and power over time, and the force over the position. */
export function MotionPart({ result, curve }: { result: Result; curve: Curve }) {
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const lines = useMemo(() => motionLines(result, curve), [result, curve]);
  const t = words.curve.motion;
  if (lines === undefined) return null;
  const air = [lines.takeOff, lines.touchdown] as const;
  const beforeAir = [lines.takeOff] as const;
  return (
    <details className="value-group motion-part" open>
      <summary>{t.title}</summary>
      <p className="small soft">{t.help}</p>
      <div ref={host} className="motion-figures">
        {width > 0 && (
          <>
            <Figure name={t.velocity} points={lines.velocity} marks={air} width={width} decimals={1} />
            <Figure name={t.position} points={lines.position} marks={air} width={width} decimals={2} />
            <Figure name={t.power} points={lines.power} marks={beforeAir} width={width} decimals={0} />
            <Figure name={t.forceOverPosition} points={lines.forceOverPosition} marks={[]} width={width} decimals={0} />
          </>
        )}
      </div>
    </details>
  );
}

interface FigureProps {
  readonly name: string;
  readonly points: Points;
  /** Places along, where a line stands upright: take-off, then touchdown. */
  readonly marks: readonly number[];
  readonly width: number;
  readonly decimals: number;
}

function Figure({ name, points, marks, width, decimals }: FigureProps) {
  const height = 150;
  const edges = { left: 56, right: width - 8, top: 8, bottom: height - 24 };
  const x = valueScale(
    points.map(([along]) => along),
    edges.left,
    edges.right,
  );
  const up = points.map(([, value]) => value);
  const y = valueScale([...up, 0], edges.bottom, edges.top);
  const label = words.curve.motion.range(
    name,
    numberText(Math.min(...up), decimals),
    numberText(Math.max(...up), decimals),
  );
  return (
    <figure>
      <figcaption className="small">{name}</figcaption>
      <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} role="img" aria-label={label}>
        <Axes edges={edges} up={y.marks} along={x.marks} />
        {marks.map((mark) => (
          <line key={mark} className="motion-mark" x1={x.at(mark)} x2={x.at(mark)} y1={edges.top} y2={edges.bottom} />
        ))}
        <polyline
          className="motion-line"
          points={points.map(([along, value]) => `${x.at(along).toFixed(1)},${y.at(value).toFixed(1)}`).join(' ')}
        />
      </svg>
    </figure>
  );
}
