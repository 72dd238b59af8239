import type { RigView } from '@sthene/contract';
import type { RigLive } from '../../live/index.ts';
import { quantityText } from '../../number/format.ts';
import { rigWords } from '../../words/rig.ts';

const shown = 300;
const [width, height] = [600, 140];

interface ForceNowProps {
  readonly rig: RigView;
  readonly now: RigLive['now'];
  readonly trace: RigLive['trace'];
}

/** Force now in numbers, and the last seconds as a trace. Plates hang or stand here: nobody's name stands beside it. */
export function ForceNow({ rig, now, trace }: ForceNowProps) {
  const t = rigWords.live;
  const text = (value: number) => quantityText(value, 'N', { sampleRate: rig.rate.promised });
  return (
    <section className="panel" aria-labelledby="live">
      <h2 id="live">{t.title}</h2>
      {now === undefined ? (
        <p className="soft">{rig.state === 'closed' ? t.closed : t.none}</p>
      ) : (
        <dl className="force-now">
          {(['total', 'left', 'right'] as const).map((side) => {
            const value = now[side];
            return value === undefined ? null : (
              <div key={side} data-side={side}>
                <dt>{t[side]}</dt>
                <dd className="number">{text(value)}</dd>
              </div>
            );
          })}
        </dl>
      )}
      {trace !== undefined && <TracePicture trace={trace} label={t.summary(now ? text(now.total) : '')} />}
    </section>
  );
}

/** Smallest to largest of each bucket as an upright line, so that no peak vanishes; a missing bucket stays a hole. */
function TracePicture({ trace, label }: { trace: NonNullable<RigLive['trace']>; label: string }) {
  const [lows, highs] = [trace.low.slice(-shown), trace.high.slice(-shown)];
  const known = [...lows, ...highs].filter((one): one is number => one !== null);
  const low = Math.min(0, ...known);
  const high = Math.max(100, ...known);
  const y = (value: number) => height - ((value - low) / (high - low)) * height;
  const path = lows
    .map((least, i) => {
      const most = highs[i];
      if (typeof least !== 'number' || typeof most !== 'number') return '';
      const x = ((i + 0.5) / shown) * width;
      return `M${x.toFixed(1)} ${(y(most) - 0.7).toFixed(1)}V${(y(least) + 0.7).toFixed(1)}`;
    })
    .join('');
  return (
    <svg className="trace" viewBox={`0 0 ${width} ${height}`} preserveAspectRatio="none" role="img" aria-label={label}>
      <path d={`M0 ${y(0)}H${width}`} className="trace-zero" />
      <path d={path} className="trace-line" />
    </svg>
  );
}
