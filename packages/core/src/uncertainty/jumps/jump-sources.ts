import type { JumpContext } from '../../jumps/jump-context.ts';
import { standingUnrest } from '../../jumps/quiet.ts';
import type { SampleSpan } from '../../recording/sample.ts';
import { meanOf, samplesIn, sdOf, touchesGap } from '../../signal/index.ts';
import type { UncertaintySources, WeightSource } from '../sources.ts';
import { weightFromMeans } from '../stand-still.ts';
import type { KnownOfTrial } from '../trial-sources.ts';
import { noiseOfJump } from './jump-noise.ts';

/** At most so many seconds of standing, s. */
const search = 10;

/** Sources of a jump's uncertainty: what is known besides, noise and standing from the curve itself. */
export function sourcesOfJump(jump: JumpContext, { rig, weighing, synchronisation }: KnownOfTrial): UncertaintySources {
  const from = jump.bodyWeight.ok ? jump.bodyWeight.value.from : 'given';
  const weighed = from === 'weighing' && weighing !== undefined ? weightFromMeans(weighing, 'weighing') : undefined;
  const weight = from === 'given' ? undefined : (weighed ?? weightFromJump(jump));
  const noise = noiseOfJump(jump);
  return {
    ...(rig === undefined ? {} : { rig }),
    ...(weight === undefined ? {} : { weight }),
    ...(noise === undefined ? {} : { noise }),
    ...(synchronisation === undefined ? {} : { synchronisation }),
  };
}

/**
 * Standard uncertainty of W from the means of successive seconds of the stand it was read from: whole seconds backward from the end of
 * the quiet second (after a drop jump forward from its start) for as long as each is quiet, SD and distance from W at most 5 % of it, at
 * most ten. Where only one second stands there, the quiet second on the other side of the jump is the other.
 *
 * @returns undefined where there is no second second
 */
function weightFromJump(jump: JumpContext): WeightSource | undefined {
  const { events, stance, forces } = jump;
  if (!events.weighing.ok) return undefined;
  const { place, start, end, mean } = events.weighing.value;
  const width = Math.max(2, samplesIn(1, forces.sampleRate));
  const means: number[] = [];
  for (let step = 0; step < search; step++) {
    const from = place === 'before' ? end - (step + 1) * width : start + step * width;
    const here = secondAt(jump, { start: from, end: from + width }, mean);
    if (here === undefined) break;
    means.push(here);
  }
  if (means.length > 1) return weightFromMeans(means, place === 'before' ? 'standing-before' : 'standing-after');
  const other = place === 'before' && stance.ok ? stance.value.mean : undefined;
  return other === undefined ? undefined : weightFromMeans([mean, other], 'standing-both');
}

/** Mean of a second in which somebody stands still. */
function secondAt({ forces, events }: JumpContext, { start, end }: SampleSpan, mean: number): number | undefined {
  if (start < events.span.start || end > Math.min(events.span.end, forces.sampleCount)) return undefined;
  if (touchesGap(forces, start, end - 1)) return undefined;
  const here = meanOf(forces.total, start, end);
  const allowed = standingUnrest * mean;
  return sdOf(forces.total, start, end) > allowed || Math.abs(here - mean) > allowed ? undefined : here;
}
