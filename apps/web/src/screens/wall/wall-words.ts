import type { WallRig, WallState } from '@sthene/contract';
import { highestSince, type Trace } from '../../live/index.ts';
import { numberText } from '../../number/format.ts';

/** The one number of the wall: the highest force of the effort, above standing, or a jump's height in cm. Undefined outside an effort. */
export function wallNumber(rig: WallRig, trace: Trace | undefined): string | undefined {
  if (rig.result?.height !== undefined) return numberText(100 * rig.result.height, 1);
  if (rig.result?.highest !== undefined) return numberText(rig.result.highest, 0);
  if (rig.phase !== 'pull' || trace === undefined) return undefined;
  const highest = highestSince(trace, trace.first);
  return highest === undefined ? undefined : numberText(highest, 0);
}

/** The force now, above standing; undefined where none may be shown. */
export function wallForce(rig: WallRig, trace: Trace | undefined): number | undefined {
  if (rig.result !== undefined) return rig.result.highest;
  if (trace === undefined || !['ready', 'cue', 'pull'].includes(rig.phase)) return undefined;
  return trace.high.at(-1) ?? undefined;
}

/** What stands at the foot: what to say after an effort, or the phase's own sentence. */
export function wallLine({ result, now }: WallRig): string {
  return (result === undefined || result.say === '' ? now : result.say) ?? '';
}

/** What comes next, while somebody rests: the next test of whoever is here once no effort of this one is left, else the next person. */
export function wallNext({ phase, what }: WallRig, next: WallState['next'][number] | undefined): string | undefined {
  if (next === undefined || (phase !== 'rest' && phase !== 'verdict')) return undefined;
  if (next.test === undefined) return next.who;
  return what === undefined ? next.test : undefined;
}
