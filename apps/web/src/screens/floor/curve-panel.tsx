import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useCallback, useState } from 'react';
import { curveQuery } from '../../data/queries.ts';
import type { RigLive, Trace } from '../../live/index.ts';
import { numberText } from '../../number/format.ts';
import { liveWords as words } from '../../words/live.ts';
import { liveScene } from './live-scene.ts';
import { axisOf, type ForceView, forceText } from './numbers.ts';
import { SceneCanvas } from './scene-canvas.tsx';
import { keptScene, storedScene } from './stored-scene.ts';
import './balance.css';

/** A verdict is told before its trial is stored, which takes a moment. */
const soon = { retry: 20, retryDelay: 250 } as const;

/** The hero of the Floor: the force now, and after an effort the stored curve with the evidence. */
export function CurvePanel({ lab, rig, view }: { lab: LabId; rig: RigLive; view: ForceView }) {
  const { floor, trace, verdict, now } = rig;
  const judged = verdict !== undefined && (floor?.phase === 'verdict' || floor?.phase === 'rest');
  // A stored curve holds the stand-still too: where the weight is not told, the live curve has to do.
  const own = judged && verdict.forces !== 'total';
  const stored = useQuery({ ...curveQuery(lab, verdict?.trial ?? ''), enabled: judged && !own, ...soon });
  const curve = judged && !own ? stored.data : undefined;
  const kept = useKeptTrace(judged ? verdict.trial : undefined, trace);
  const axis = axisOf(floor, view);
  const [low, high] = axis;
  // A curve that is kept does not change: what goes on under the pen meanwhile must not paint it again.
  const running = curve === undefined && kept === undefined;
  const [liveTrace, liveFloor] = running ? [trace, floor] : [undefined, undefined];
  const scene = useCallback(
    (width: number, height: number, measure: Parameters<typeof liveScene>[0]['measure']) => {
      const common = { width, height, view, axis: [low, high] as const, measure };
      if (verdict !== undefined) {
        const { evidence, closeness: band, values } = verdict;
        const best = values.find(({ metric }) => metric === 'peak_force')?.history?.best;
        const judgement = { ...common, evidence, band, best: band === undefined ? best : undefined };
        if (curve !== undefined) return storedScene({ ...judgement, curve });
        if (kept !== undefined) return keptScene({ ...judgement, trace: kept });
      }
      return liveScene({ ...common, trace: liveTrace, floor: liveFloor });
    },
    [curve, kept, verdict, liveTrace, liveFloor, view, low, high],
  );
  const text = forceText(now?.total, view);
  const label =
    curve !== undefined || kept !== undefined
      ? words.curve.stored
      : text === undefined
        ? view.mode === 'hidden'
          ? words.curve.hidden
          : words.curve.none
        : words.curve.now(text);
  return (
    <div className="floor-curve">
      <SceneCanvas scene={scene} label={`${words.curve.label}. ${label}`} />
    </div>
  );
}

/** The live curve as it was when an effort was judged; undefined where none is asked for. */
function useKeptTrace(trial: string | undefined, trace: Trace | undefined): Trace | undefined {
  const [kept, setKept] = useState<{ readonly trial: string; readonly trace: Trace }>();
  if (trial === undefined) return undefined;
  if (kept?.trial === trial) return kept.trace;
  if (trace !== undefined) setKept({ trial, trace });
  return trace;
}

/** The signed share of right over left now, on a fixed scale of plus and minus 20 %. */
export function BalanceLine({ value, silent }: { value: number | undefined; silent: boolean }) {
  const { balance } = words;
  const shown = value === undefined ? 0 : Math.max(-20, Math.min(20, value));
  const side = shown < 0 ? 'left' : 'right';
  const size = Math.abs(value ?? 0);
  const text =
    value === undefined
      ? silent
        ? balance.silent
        : balance.none
      : size < 0.5
        ? balance.even
        : balance.more(balance[side], numberText(size, 0));
  return (
    <div className="balance-line" role="img" aria-label={`${balance.title}: ${text}`}>
      <b className="side-left">L</b>
      <div className="balance-rail" data-side={side}>
        <i style={{ width: `${(Math.abs(shown) / 20) * 50}%` }} />
      </div>
      <b className="side-right">R</b>
      <span className="number">{text}</span>
    </div>
  );
}
