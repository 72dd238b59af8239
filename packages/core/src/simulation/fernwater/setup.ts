import type { SeededRandom } from '../random.ts';
import type { PlannedSession } from './plan.ts';

type Setup = Record<string, string | number | boolean>;

/** Words of the cue in the first two seasons, and since: a changed cue must be seen in the comparison. */
const cues = [
  'Push the ground away as fast and as hard as you can',
  'Drive your feet into the floor, fast and hard',
] as const;

/**
 * What was written down about the setup. The bar stays where it was, but for a centimetre now and then; angles are measured
 * to a few degrees; the club changed its words at the start of the third season.
 */
export function fernwaterSetup({ person, day, test }: PlannedSession, random: SeededRandom): Setup {
  const barShift = random.uniform() < 0.1 ? 1 : 0;
  const degree = (angle: number): number => angle + Math.floor(random.between(-2, 3));
  const kneeAngle = degree(person.kneeAngle);
  const hipAngle = degree(person.hipAngle);
  const cue = cues[day < 6 ? 0 : 1];
  if (test.protocol === 'isometric-squat') {
    return { barHeight: person.barHeight + 52 + barShift, kneeAngle: kneeAngle - 15, hipAngle: hipAngle - 10, cue };
  }
  return { barHeight: person.barHeight + barShift, kneeAngle, hipAngle, grip: 'clean', straps: true, cue };
}
