import type { PullSpec } from '../draw.ts';
import { exactExp } from '../exact-math.ts';
import type { SeededRandom } from '../random.ts';
import { yearsTo } from './calendar.ts';
import type { PlannedSession } from './plan.ts';

/** One effort of a session: enough to simulate its curve at any time. */
export interface FernwaterTrial {
  /** From 1, in the order pulled. */
  readonly order: number;
  readonly effort: 'maximal' | 'submaximal';
  /** Share of the maximum asked for in a submaximal effort. */
  readonly target?: number;
  readonly spec: PullSpec;
  readonly seed: number;
}

/** Faults of an ordinary test day and how likely each is against the others. */
const usualFaults: readonly (readonly [id: string, weight: number])[] = [
  ['dip', 4],
  ['tension-taken', 3],
  ['tension-held', 2],
  ['slack', 2],
  ['unsteady-stance', 2],
  ['re-landing', 1],
  ['early-end', 2],
  ['double-pull', 2],
  ['stepped-rise', 2],
  ['peak-at-end', 2],
  ['bar-knock', 1],
  ['spike', 1],
];

/** What the rig of the club is like: good plates, well above what any athlete pulls. */
const rig = { sampleRate: 1000, plateNoise: 0.6, quantum: 0.05, plateRange: 10_000 } as const;

/** Net force this athlete is able to show in this session, N: trend, injury, learning and the day's form. */
export function sessionStrength(session: PlannedSession, random: SeededRandom): number {
  const { person, day, test, turn } = session;
  const trend = 1 + person.strengthPerYear * yearsTo(day);
  const learnt = turn === 0 ? 1 - person.learning : 1;
  const form = exactExp(person.typicalError * random.gaussian());
  // A single-leg test on the sound side loses nothing.
  const hurt = test.limbs === 'right' ? 0 : (person.injury?.strengthLoss ?? 0) * injuryLeft(session);
  return person.strength * trend * test.strengthShare * learnt * form * (1 - hurt);
}

/** Share of the injury still there: 0 before it, 1 on its first test day, shrinking after. */
export function injuryLeft({ person, day }: PlannedSession): number {
  if (!person.injury || day < person.injury.fromDay) return 0;
  let left = 1;
  for (let d = person.injury.fromDay; d < day; d++) left *= person.injury.recovery;
  return left;
}

/** The efforts of one session: sometimes two submaximal ones, then maximal ones until three were meant well, at most five. */
export function sessionTrials(session: PlannedSession, bodyWeight: number, random: SeededRandom): FernwaterTrial[] {
  const strength = sessionStrength(session, random);
  const shift = (session.person.injury?.shareShift ?? 0) * injuryLeft(session);
  const pullShareRight = session.person.pullShareRight + shift + 0.006 * random.gaussian();
  const trials: FernwaterTrial[] = [];
  const add = (effort: FernwaterTrial['effort'], netForce: number, more: PullSpec, target?: number): void => {
    const order = trials.length + 1;
    const { test, person } = session;
    trials.push({
      order,
      effort,
      ...(target === undefined ? {} : { target }),
      seed: seedOf(session, order),
      spec: {
        ...rig,
        limbs: test.limbs,
        bodyWeight,
        netForce,
        pace: person.pace,
        halfTime: person.halfTime * test.riseFactor * (0.92 + 0.16 * random.uniform()),
        hold: random.between(test.hold[0], test.hold[1]),
        breathing: random.between(2, 7),
        drift: random.between(-1, 1),
        standingShareRight: 0.5 + 0.6 * (pullShareRight - 0.5),
        pullShareRight,
        ...more,
      },
    });
  };
  if (random.uniform() < 0.35) {
    for (const target of [0.5, 0.75])
      add('submaximal', strength * target * exactExp(0.08 * random.gaussian()), {}, target);
  }
  const wanted = random.uniform() < 0.15 ? 2 : 3;
  let well = 0;
  let wrong = 0;
  for (let pulls = 0; pulls < 5 && well < wanted; pulls++) {
    const force = strength * exactExp(session.person.trialError * random.gaussian());
    // After three bad pulls the coach has said enough: every session keeps at least two good ones.
    const chance = session.person.faultChance * (session.turn === 0 ? 1.5 : 1);
    const goesWrong = random.uniform() < chance && wrong < 3;
    const fault = pickFault(random, session.test.protocol);
    add('maximal', force, goesWrong ? { fault } : {});
    if (goesWrong) wrong++;
    else well++;
  }
  return trials;
}

/** An early end means something else in a test that lasts a second. */
function pickFault(random: SeededRandom, protocol: string): string {
  const choice = usualFaults.filter(([id]) => protocol !== 'imtp-explosive' || id !== 'early-end');
  let at = random.uniform() * choice.reduce((sum, [, weight]) => sum + weight, 0);
  for (const [id, weight] of choice) {
    at -= weight;
    if (at < 0) return id;
  }
  return choice[0]![0];
}

const testOrder = ['imtp', 'imtp-explosive', 'isometric-squat', 'imtp-left', 'imtp-right'];

const seedOf = ({ personNumber, day, test }: PlannedSession, order: number): number =>
  ((personNumber * 100 + day) * 10 + testOrder.indexOf(test.protocol)) * 10 + order;
