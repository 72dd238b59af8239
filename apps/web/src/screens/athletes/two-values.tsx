import type { LabId, SquadTable, SquadTableRow } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { median } from 'd3-array';
import { useRef } from 'react';
import { Link } from 'react-router';
import { squadTableQuery } from '../../data/athletes.ts';
import { Axes } from '../../parts/axes.tsx';
import { ProblemCard } from '../../parts/problem-card.tsx';
import { useWidth } from '../../parts/use-width.ts';
import { followWords } from '../../words/follow.ts';
import { Choice } from './choice.tsx';
import { errorInUnit } from './error-in-unit.ts';
import { valueScale } from './plot-scale.ts';
import { useChoice } from './use-choice.ts';
import { tickText } from './values.ts';

const usualOther = 'rfd_0_200';

interface FigureProps {
  readonly lab: LabId;
  readonly table: SquadTable;
  readonly rows: readonly SquadTableRow[];
}

/** Two values against each other: each athlete a cross as large as their noise, medians as dashed lines. */
export function TwoValues({ lab, table, rows }: FigureProps) {
  const t = followWords.squad;
  const { squad, test, other = usualOther, choose } = useChoice();
  const second = useQuery(
    squadTableQuery(lab, { ...(squad ? { squad } : {}), ...(test === undefined ? {} : { test }), metric: other }),
  );
  const host = useRef<HTMLDivElement>(null);
  const width = useWidth(host);
  const { data } = second;
  return (
    <div className="squad-figure">
      <div className="squad-other">
        <Choice label={t.other} value={other} onChange={(value) => choose('other', value)}>
          {table.metrics.map(({ id, title }) => (
            <option key={id} value={id}>
              {title}
            </option>
          ))}
        </Choice>
      </div>
      {second.isError && <ProblemCard error={second.error} onRetry={() => void second.refetch()} />}
      <p className="small soft">{t.cross}</p>
      <div ref={host}>
        {data && width > 0 && <Crosses lab={lab} x={table} y={data} shown={rows} width={Math.min(width, 1000)} />}
      </div>
    </div>
  );
}

interface CrossesProps {
  readonly lab: LabId;
  readonly x: SquadTable;
  readonly y: SquadTable;
  readonly shown: readonly SquadTableRow[];
  readonly width: number;
}

function Crosses({ lab, x: across, y: up, shown, width }: CrossesProps) {
  const t = followWords.squad;
  const people = shown.flatMap((a) => {
    const b = up.rows.find(({ person }) => person.id === a.person.id);
    return a.value === undefined || b?.value === undefined
      ? []
      : [
          {
            person: a.person,
            a: a.value.value,
            b: b.value.value,
            ea: errorInUnit(a, across.scale),
            eb: errorInUnit(b, up.scale),
          },
        ];
  });
  if (people.length === 0) return <p className="nothing">{t.noFigure}</p>;
  const height = Math.round(Math.min(640, Math.max(300, width * 0.66)));
  const [left, right, top, bottom] = [70, width - 16, 12, height - 46];
  const x = valueScale(
    people.flatMap(({ a, ea }) => [a - ea, a + ea]),
    left,
    right,
  );
  const y = valueScale(
    people.flatMap(({ b, eb }) => [b - eb, b + eb]),
    bottom,
    top,
  );
  const [mx = 0, my = 0] = [median(people, ({ a }) => a), median(people, ({ b }) => b)];
  return (
    <figure className="squad-plot" aria-label={t.figure(up.metric.title, across.metric.title)}>
      <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`}>
        <title>{t.figure(up.metric.title, across.metric.title)}</title>
        <Axes
          edges={{ left, right, top, bottom }}
          up={y.ticks.map((tick) => ({ at: y.at(tick), text: tickText(tick, up.metric.unit) }))}
          along={x.ticks.map((tick) => ({ at: x.at(tick), text: tickText(tick, across.metric.unit) }))}
        />
        <line className="follow-reference" x1={x.at(mx)} x2={x.at(mx)} y1={top} y2={bottom} />
        <line className="follow-reference" x1={left} x2={right} y1={y.at(my)} y2={y.at(my)} />
        {people.map(({ person, a, b, ea, eb }) => (
          <Link key={person.id} to={`/${lab}/athletes/${person.id}`}>
            <title>{person.name}</title>
            <rect className="follow-target" x={x.at(a) - 16} y={y.at(b) - 16} width={32} height={32} />
            <path
              className="squad-cross"
              d={`M${x.at(a - ea)},${y.at(b)}H${x.at(a + ea)}M${x.at(a)},${y.at(b - eb)}V${y.at(b + eb)}`}
            />
            <text className="squad-name" x={x.at(a) + 5} y={y.at(b) - 5}>
              {person.code}
            </text>
          </Link>
        ))}
        <text className="axes-tick" x={(left + right) / 2} y={height - 8} textAnchor="middle">
          {across.metric.title}
        </text>
        <text className="axes-tick" transform={`translate(13 ${(top + bottom) / 2}) rotate(-90)`} textAnchor="middle">
          {up.metric.title}
        </text>
      </svg>
    </figure>
  );
}
