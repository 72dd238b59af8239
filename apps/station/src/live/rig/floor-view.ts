import type { RigFloor } from '@sthene/contract';
import { type Telling, tellingOf, toldLevel } from '../telling.ts';
import { bestForce, type RunningTurn, scaleOf } from '../turn.ts';
import type { RigRuntime } from './rig-runtime.ts';

/** Id of the effort under way or next. */
export const trialId = (rig: RigRuntime, turn: RunningTurn): string => `${turn.view.id}-${rig.trial}`;

/** What goes on at a rig. */
export function floorView(rig: RigRuntime, turn: RunningTurn | undefined): RigFloor {
  const ready = rig.rules()?.ready;
  const weight = turn?.weighing?.bodyWeight;
  const telling = tellingOf(turn, rig.phase);
  const best = turn && bestForce(turn);
  const toldBest = best === undefined ? undefined : toldLevel(best, telling);
  const tension =
    weight === undefined || ready === undefined || turn?.entry.protocol.jump !== undefined
      ? undefined
      : { low: weight - ready.below, high: weight + ready.above };
  const toldTension = toldBand(tension, telling);
  const target = toldBand(turn?.target, telling);
  return {
    rig: rig.id,
    phase: rig.phase,
    since: rig.since,
    ...(turn === undefined ? {} : { turn: turn.view, trial: trialId(rig, turn) }),
    guided: rig.mode === 'guided',
    armed: rig.armed,
    held: rig.held,
    forces: telling.forces,
    now: rig.now,
    ...(rig.say === undefined ? {} : { say: rig.say }),
    ...(rig.jump === undefined ? {} : { jump: rig.jump }),
    ...(turn === undefined ? {} : { weighing: weighingOf(turn) }),
    ...(toldTension === undefined ? {} : { tension: toldTension }),
    ...(target === undefined ? {} : { target }),
    scale: scaleFor(turn, telling),
    ...(toldBest === undefined ? {} : { best: toldBest }),
  };
}

interface Band {
  readonly low: number;
  readonly high: number;
}

function toldBand(band: Band | undefined, telling: Telling): Band | undefined {
  const low = band && toldLevel(band.low, telling);
  const high = band && toldLevel(band.high, telling);
  return low === undefined || high === undefined ? undefined : { low, high };
}

/** Steps of a scale that must not tell the weight by its end. */
const coarse = 1000;

function scaleFor(turn: RunningTurn | undefined, telling: Telling): Band {
  if (telling.forces === 'total') return scaleOf(turn);
  // The same for every weight: it follows the best alone, in coarse steps.
  const best = (turn && bestForce(turn)) ?? 0;
  return { low: -150, high: Math.max(3 * coarse, Math.ceil(best / coarse) * coarse) };
}

function weighingOf(turn: RunningTurn): NonNullable<RigFloor['weighing']> {
  const { weighing, stillProgress, weightShown, weightNote } = turn;
  const note = weightNote === undefined ? {} : { note: weightNote };
  if (weighing === undefined) return { ...note, progress: stillProgress, done: false };
  if (!weightShown) return { ...note, progress: 1, done: true };
  const { bodyWeight, shareRight } = weighing;
  return {
    ...note,
    progress: 1,
    done: true,
    bodyWeight,
    ...(shareRight === undefined ? {} : { leftShare: 1 - shareRight / 100 }),
  };
}
