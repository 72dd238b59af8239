import { decimalsFor, numberText, unitText } from '../../number/format.ts';
import { words } from '../../words/index.ts';
import { resolutionOf } from './numbers.ts';
import { useShared } from './trial-context.ts';

const width = 92;
const middle = width / 2;
/** Half the strip in share of the value; for values that are themselves shares, in points. */
const reach = { share: 0.3, points: 10 };

/**
 * How far a value moves under the other onset rules. All strips have one scale (thirty per cent of the value to each
 * side), so that their lengths can be compared down the table; an arrow says that a strip goes on.
 */
export function SpreadStrip({ id, value, unit }: { id: string; value: number; unit: string }) {
  const { result } = useShared().view;
  const spread = result.spread[id];
  if (!spread || (unit !== '%' && value === 0)) return null;
  const decimals = decimalsFor(unit, value, resolutionOf(result));
  const write = (one: number) => `${numberText(one, decimals)}\u00a0${unitText(unit)}`;
  const place = (one: number) =>
    middle +
    (middle - 7) * (unit === '%' ? (one - value) / reach.points : (one - value) / Math.abs(value) / reach.share);
  const low = Math.min(place(spread.min), place(spread.max));
  const high = Math.max(place(spread.min), place(spread.max));
  const text = spread.min === spread.max ? write(spread.min) : `${write(spread.min)} to ${write(spread.max)}`;
  const inside = (x: number) => Math.min(width - 4, Math.max(4, x));
  return (
    <svg className="spread" width={width} height="20" role="img" aria-label={`${words.values.head.spread}: ${text}`}>
      <title>{text}</title>
      <line x1="4" x2={width - 4} y1="10" y2="10" className="spread-track" />
      <line x1={inside(low)} x2={inside(high)} y1="10" y2="10" className="spread-range" />
      {Object.entries(spread.by).map(([rule, one]) => {
        const x = place(one);
        return x >= 3 && x <= width - 3 ? (
          <line key={rule} x1={x} x2={x} y1="6.5" y2="13.5" className="spread-rule" />
        ) : null;
      })}
      {low < 3 && <path d="M7 5.500l-5 4.500 5 4.500" className="spread-arrow" />}
      {high > width - 3 && <path d={`M${width - 7} 5.500l5 4.500-5 4.500`} className="spread-arrow" />}
      <line x1={middle} x2={middle} y1="2" y2="18" className="spread-value" />
    </svg>
  );
}
