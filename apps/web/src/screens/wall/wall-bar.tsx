import type { WallRig } from '@sthene/contract';
import { liveWords } from '../../words/live.ts';

const top = 960;

/** One bar against a fixed ruler, with target and own best. Forces above standing, N. */
export function WallBar({ rig, force }: { rig: WallRig; force: number | undefined }) {
  const { scale, target, best } = rig;
  const at = (value: number) => top - (Math.max(0, Math.min(scale, value)) / scale) * top;
  const step = scale > 2000 ? 500 : 250;
  const ticks = Array.from({ length: Math.floor(scale / (step / 5)) + 1 }, (_, i) => i * (step / 5));
  const { wallWords: words } = liveWords;
  return (
    <svg className="wall-bar" viewBox={`0 -20 520 ${top + 40}`} aria-hidden="true">
      {target !== undefined && (
        <rect
          className="wall-target"
          x="120"
          width="260"
          y={at(target.high)}
          height={at(target.low) - at(target.high)}
        />
      )}
      {ticks.map((value) => (
        <path key={value} className="wall-tick" d={`M0 ${at(value)}H${value % step === 0 ? 100 : 52}`} />
      ))}
      <rect className="wall-force" x="150" width="200" y={at(force ?? 0)} height={top - at(force ?? 0)} />
      <path className="wall-ground" d={`M110 ${top}H390`} />
      {target !== undefined && (
        <text className="wall-label" x="400" y={(at(target.high) + at(target.low)) / 2 + 12}>
          {words.target}
        </text>
      )}
      {best !== undefined && target === undefined && (
        <>
          <path className="wall-best" d={`M110 ${at(best)}H390`} />
          <text className="wall-label wall-best-label" x="400" y={at(best) + 12}>
            {words.best}
          </text>
        </>
      )}
    </svg>
  );
}
