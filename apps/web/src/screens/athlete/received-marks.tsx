import type { LabId, ReceivedLine } from '@sthene/contract';
import { Link } from 'react-router';
import { whenText } from '../../number/when.ts';
import { receivedWords } from '../../words/received.ts';
import { valueText } from '../athletes/values.ts';

interface MarksProps {
  readonly lab: LabId;
  readonly lines: readonly ReceivedLine[];
  readonly place: (point: { readonly at: string; readonly value: number }) => readonly [number, number];
  readonly unit: string;
}

/** Lines of others in the plot: hollow squares on a dashed line, told apart by their letter. */
export function ReceivedMarks({ lab, lines, place, unit }: MarksProps) {
  return lines.map((line) => {
    const trail = line.points.map((point) =>
      place(point)
        .map((pixel) => pixel.toFixed(1))
        .join(','),
    );
    const last = line.points.at(-1);
    const [x, y] = last ? place(last) : [0, 0];
    return (
      <g key={line.letter}>
        <polyline className="follow-received-trail" points={trail.join(' ')} />
        {line.points.map((point) => {
          const [at, height] = place(point);
          return (
            <Link key={point.session} to={`/${lab}/sessions/${point.session}`} tabIndex={-1}>
              <title>
                {`${line.letter}, ${receivedWords.label(line.label)}, ${whenText(point.at, false)}: ${valueText(point.value, unit)}`}
              </title>
              <circle className="follow-target" cx={at} cy={height} r={14} />
              <rect className="follow-received-point" x={at - 4.5} y={height - 4.5} width={9} height={9} />
            </Link>
          );
        })}
        <text className="follow-received-letter" x={x + 9} y={y - 8}>
          {line.letter}
        </text>
      </g>
    );
  });
}
