import type { SeededRandom } from '../random.ts';
import type { FernwaterTest, PlannedSession } from './plan.ts';

type Setup = Record<string, string | number | boolean>;

const thirdSeason = 6; // number of its first test day

/** The club changed its words at the start of the third season: a changed cue must be seen in the comparison. */
function cueWords(test: FernwaterTest, day: number): string {
  if (test.protocol === 'imtp-explosive') return 'Fast.';
  if (day < thirdSeason) return 'Push the ground away as fast and as hard as you can.';
  return 'Drive your feet into the floor, fast and hard.';
}

/**
 * What was written down about the setup, by the ids of the test's setup fields. The bar stays where it was but for a centimetre
 * now and then; angles are measured to a few degrees.
 */
export function fernwaterSetup({ person, day, test, turn }: PlannedSession, random: SeededRandom): Setup {
  const barShift = random.uniform() < 0.1 ? 1 : 0;
  const degree = (angle: number): number => angle + Math.floor(random.between(-2, 3));
  const kneeAngle = degree(person.kneeAngle);
  const hipAngle = degree(person.hipAngle);
  const words: Setup = { cue_words: cueWords(test, day), familiarisation: turn === 0 };
  if (test.protocol === 'isometric-squat') {
    return {
      bar_height: person.barHeight + 52 + barShift,
      knee_angle: kneeAngle - 15,
      hip_angle: hipAngle - 10,
      bar_position: 'high',
      ...words,
    };
  }
  return {
    bar_height: person.barHeight + barShift,
    knee_angle: kneeAngle,
    hip_angle: hipAngle,
    grip: 'clean',
    straps: 'straps',
    ...(test.limbs === 'both' ? {} : { balance_help: 'finger tips' }),
    ...words,
  };
}
