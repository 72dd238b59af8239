import { seededRandom } from '../random.ts';
import { yearsTo } from './calendar.ts';
import type { FernwaterPerson } from './people.ts';

export const standardGravity = 9.80665; // m/s^2, 3rd CGPM 1901
const stream = 78; // apart from the streams of single pulls

/** Mass of a day, kg, the person's own whatever the test: drawn apart so that all tests of a day share it. */
export const massOn = (person: FernwaterPerson, number: number, day: number): number =>
  person.bodyMass + person.bodyMassPerYear * yearsTo(day) + 0.5 * seededRandom(number * 100 + day, stream).gaussian();
