import type { LabId, SquadTable, SquadTableRow } from '@sthene/contract';
import { Link } from 'react-router';
import { useTwoGoes } from '../../parts/use-two-goes.ts';
import { athleteWords } from '../../words/athletes.ts';
import '../../parts/axes.css';
import { followWords } from '../../words/follow.ts';
import { wordText } from './change-word.ts';
import { errorInUnit } from './error-in-unit.ts';
import { valueText } from './values.ts';

const [width, height] = [200, 76];

/** A small figure for everybody, all on one time scale, each on a scale of its own: shapes to compare, not heights. */
export function SmallFigures({ lab, table, rows }: { lab: LabId; table: SquadTable; rows: readonly SquadTableRow[] }) {
  const shown = useTwoGoes(rows);
  // Of everybody, so that the scale stays when the rest is drawn.
  const times = rows.flatMap(({ trail = [] }) => trail.map(({ at }) => Date.parse(at)));
  const [from, to] = [Math.min(...times), Math.max(...times)];
  return (
    <ul className="squad-small">
      {shown.map((row) => (
        <li key={row.person.id} data-word={row.change?.word}>
          <Link
            to={`/${lab}/athletes/${row.person.id}?${new URLSearchParams({ metric: table.metric.id })}`}
            className="row-link"
          >
            {row.person.name}
          </Link>
          <Figure row={row} table={table} from={from} to={to} />
          <span className="small">
            {row.value === undefined ? (
              <span className="soft">{athleteWords.never}</span>
            ) : (
              <>
                <span className="number">{valueText(row.value.value, table.metric.unit)}</span>{' '}
                <span className="soft">
                  {row.change === undefined
                    ? followWords.squad.trail(row.trail?.length ?? 0)
                    : wordText(row.change.word, table)}
                </span>
              </>
            )}
          </span>
        </li>
      ))}
    </ul>
  );
}

interface FigureProps {
  readonly row: SquadTableRow;
  readonly table: SquadTable;
  readonly from: number;
  readonly to: number;
}

function Figure({ row, table, from, to }: FigureProps) {
  const { trail = [] } = row;
  const values = trail.map(({ value }) => value);
  if (values.length === 0) return <svg width={width} height={height} aria-hidden="true" />;
  const error = errorInUnit(row, table.scale);
  const last = values.at(-1) as number;
  const [low, high] = [Math.min(...values, last - error), Math.max(...values, last + error)];
  const x = (at: string) => 6 + ((Date.parse(at) - from) / (to - from || 1)) * (width - 12);
  const y = (value: number) => height - 6 - ((value - low) / (high - low || 1)) * (height - 12);
  return (
    <svg width={width} height={height} viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <rect className="axes-ground" x={0.5} y={0.5} width={width - 1} height={height - 1} />
      {error > 0 && (
        <rect
          className="follow-band"
          x={0}
          width={width}
          y={y(last + error)}
          height={y(last - error) - y(last + error)}
        />
      )}
      <polyline
        className="follow-trail"
        points={trail.map(({ at, value }) => `${x(at).toFixed(1)},${y(value).toFixed(1)}`).join(' ')}
      />
      {trail.map(({ at, value }, i) => (
        <circle
          key={at}
          className={`follow-point ${i === trail.length - 1 ? 'newest' : 'own'}`}
          cx={x(at)}
          cy={y(value)}
          r={3}
        />
      ))}
    </svg>
  );
}
