import type { RigFloor } from '@sthene/contract';
import { bestOf, type RunningTurn, scaleOf } from '../turn.ts';
import type { RigRuntime } from './rig-runtime.ts';

/** Id of the effort under way or next. */
export const trialId = (rig: RigRuntime, turn: RunningTurn): string => `${turn.view.id}-${rig.trial}`;

/** What goes on at a rig. */
export function floorView(rig: RigRuntime, turn: RunningTurn | undefined): RigFloor {
  const ready = rig.rules()?.ready;
  const weight = turn?.weighing?.bodyWeight;
  const best = turn && bestOf(turn);
  return {
    rig: rig.id,
    phase: rig.phase,
    since: rig.since,
    ...(turn === undefined ? {} : { turn: turn.view, trial: trialId(rig, turn) }),
    guided: rig.mode === 'guided',
    armed: rig.armed,
    held: rig.held,
    now: rig.now,
    ...(turn === undefined ? {} : { weighing: weighingOf(turn) }),
    ...(weight === undefined || ready === undefined
      ? {}
      : { tension: { low: weight - ready.below, high: weight + ready.above } }),
    ...(turn?.target === undefined ? {} : { target: turn.target }),
    scale: scaleOf(turn),
    ...(best === undefined ? {} : { best }),
  };
}

function weighingOf({ weighing, stillProgress }: RunningTurn): NonNullable<RigFloor['weighing']> {
  if (weighing === undefined) return { progress: stillProgress, done: false };
  const { bodyWeight, shareRight } = weighing;
  return {
    progress: 1,
    done: true,
    bodyWeight,
    ...(shareRight === undefined ? {} : { leftShare: 1 - shareRight / 100 }),
  };
}
