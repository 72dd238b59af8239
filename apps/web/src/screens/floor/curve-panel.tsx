import type { LabId } from '@sthene/contract';
import { useQuery } from '@tanstack/react-query';
import { useCallback } from 'react';
import { curveQuery } from '../../data/queries.ts';
import type { RigLive } from '../../live/index.ts';
import { numberText } from '../../number/format.ts';
import { liveWords as words } from '../../words/live.ts';
import { liveScene } from './live-scene.ts';
import { axisOf, type ForceView, forceText } from './numbers.ts';
import { SceneCanvas } from './scene-canvas.tsx';
import { storedScene } from './stored-scene.ts';
import './balance.css';

/** A verdict is told before its trial is stored, which takes a moment. */
const soon = { retry: 20, retryDelay: 250 } as const;

/** The hero of the Floor: the force now, and after an effort the stored curve with the evidence. */
export function CurvePanel({ lab, rig, view }: { lab: LabId; rig: RigLive; view: ForceView }) {
  const { floor, trace, verdict, now } = rig;
  const judged = verdict !== undefined && (floor?.phase === 'verdict' || floor?.phase === 'rest');
  const stored = useQuery({ ...curveQuery(lab, verdict?.trial ?? ''), enabled: judged, ...soon });
  const curve = judged ? stored.data : undefined;
  const axis = axisOf(floor, view);
  const [low, high] = axis;
  const scene = useCallback(
    (width: number, height: number, measure: Parameters<typeof liveScene>[0]['measure']) => {
      const common = { width, height, view, axis: [low, high] as const, measure };
      return curve !== undefined && verdict !== undefined
        ? storedScene({ ...common, curve, evidence: verdict.evidence })
        : liveScene({ ...common, trace, floor });
    },
    [curve, verdict, trace, floor, view, low, high],
  );
  const text = forceText(now?.total, view);
  const label =
    curve !== undefined
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

/** The signed share of right over left now, on a fixed scale of plus and minus 20 %. */
export function BalanceLine({ value }: { value: number | undefined }) {
  const { balance } = words;
  const shown = value === undefined ? 0 : Math.max(-20, Math.min(20, value));
  const side = shown < 0 ? 'left' : 'right';
  const size = Math.abs(value ?? 0);
  const text =
    value === undefined ? balance.none : size < 0.5 ? balance.even : balance.more(balance[side], numberText(size, 0));
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
