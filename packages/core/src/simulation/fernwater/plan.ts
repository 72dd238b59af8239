import { fernwaterDays } from './calendar.ts';
import type { FernwaterPerson } from './people.ts';

/** What one test asks of the simulation. */
export interface FernwaterTest {
  readonly protocol: string;
  /** Force of this test as a multiple of the mid-thigh pull's net force. */
  readonly strengthShare: number;
  /** s the athlete holds on, drawn evenly. */
  readonly hold: readonly [low: number, high: number];
  /** Multiplies the half time of the rise: an explosive cue shortens it. */
  readonly riseFactor: number;
  readonly limbs: 'both' | 'left' | 'right';
}

const long: readonly [number, number] = [3.2, 4.2];

export const fernwaterTests = {
  imtp: { protocol: 'imtp', strengthShare: 1, hold: long, riseFactor: 1, limbs: 'both' },
  explosive: { protocol: 'imtp-explosive', strengthShare: 0.93, hold: [0.9, 1.3], riseFactor: 0.8, limbs: 'both' },
  squat: { protocol: 'isometric-squat', strengthShare: 1.12, hold: long, riseFactor: 1.1, limbs: 'both' },
  left: { protocol: 'imtp-left', strengthShare: 0.62, hold: long, riseFactor: 1.1, limbs: 'left' },
  right: { protocol: 'imtp-right', strengthShare: 0.62, hold: long, riseFactor: 1.1, limbs: 'right' },
} as const satisfies Record<string, FernwaterTest>;

/** One athlete's one test on one day. */
export interface PlannedSession {
  readonly person: FernwaterPerson;
  readonly personNumber: number;
  readonly day: number;
  readonly test: FernwaterTest;
  /** Number of this session among the athlete's sessions of the same test. */
  readonly turn: number;
  /** Names the session's own stream of random numbers. */
  readonly number: number;
}

/** Tests of a day besides the mid-thigh pull: the eight pulls explosively once a season, and so on. */
function extraTests(person: FernwaterPerson, day: number): FernwaterTest[] {
  if (person.squad === 'senior-eight' && day % 3 === 1) return [fernwaterTests.explosive];
  if (person.squad === 'senior-four' && day % 3 === 1) return [fernwaterTests.squat];
  if (person.injury && day > person.injury.fromDay) return [fernwaterTests.left, fernwaterTests.right];
  return [];
}

/** Days on which the four had each leg tested alone, before anybody was hurt. */
const baselineDays = [0, 2, 3];
const baseline = (person: FernwaterPerson, day: number): FernwaterTest[] =>
  person.squad === 'senior-four' && baselineDays.includes(day) ? [fernwaterTests.left, fernwaterTests.right] : [];

/** All sessions in order of day and running order. */
export function plannedSessions(people: readonly FernwaterPerson[]): PlannedSession[] {
  const turns = new Map<string, number>();
  const sessions: PlannedSession[] = [];
  // A session added to the story takes a number of its own from here, so that the others stay as they are.
  let [usual, added] = [0, 10_000];
  for (let day = 0; day < fernwaterDays.length; day++) {
    people.forEach((person, personNumber) => {
      if (person.missed.includes(day)) return;
      const before = baseline(person, day);
      for (const test of [fernwaterTests.imtp, ...extraTests(person, day), ...before]) {
        const key = `${person.id} ${test.protocol}`;
        const turn = turns.get(key) ?? 0;
        turns.set(key, turn + 1);
        sessions.push({ person, personNumber, day, test, turn, number: before.includes(test) ? added++ : usual++ });
      }
    });
  }
  return sessions;
}
