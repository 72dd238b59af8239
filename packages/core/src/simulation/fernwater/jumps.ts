import type { Recording } from '../../recording/recording.ts';
import type { UtcInstant } from '../../recording/sample.ts';
import { exactExp } from '../exact-math.ts';
import { type JumpSpec, recordingOfJumps, simulateJump, usualJump } from '../jumps/index.ts';
import { type SeededRandom, seededRandom } from '../random.ts';
import { fernwaterDays, instantOf, yearsTo } from './calendar.ts';
import { massOn, standardGravity } from './mass.ts';
import { type FernwaterPerson, fernwaterPeople } from './people.ts';

/** One jump of a session: enough to simulate its curve at any time. */
export interface FernwaterJump {
  /** From 1, in the order jumped. */
  readonly order: number;
  readonly effort: 'maximal';
  readonly spec: JumpSpec;
  readonly seed: number;
  readonly recordedAt: UtcInstant;
}

/** One athlete's jumps of one kind, with one load, on one test day. Weight is not given: each jump weighs its own quiet second. */
export interface FernwaterJumpSession {
  readonly id: string;
  /** Id of the person. */
  readonly person: string;
  readonly season: string;
  readonly startedAt: UtcInstant;
  /** Id of the test. */
  readonly protocol: string;
  readonly setup: Readonly<Record<string, string | number | boolean>>;
  readonly trials: readonly FernwaterJump[];
}

/** How somebody jumps. */
interface Jumper {
  /** Height of the countermovement jump on the first test day, m, and its gain each year as a share. */
  readonly height: number;
  readonly perYear: number;
  /** Countermovement jump over squat jump. */
  readonly ratio: number;
  /** Multiplies the times of the push: a shorter one of the same height takes more force. */
  readonly pace: number;
  /** Force at no velocity, N for each kg of body mass. */
  readonly strongest: number;
  /** Dips before the first squat jump of a day, and makes a third. */
  readonly dips?: true;
}

/** The eight and the young jump; the four never did. In the order of the people. */
const jumpers: Readonly<Record<string, Jumper>> = {
  'Adeyemi-Lund': { height: 0.4, perYear: 0.01, ratio: 1.1, pace: 1, strongest: 38 },
  Oyelaran: { height: 0.37, perYear: 0.03, ratio: 1.05, pace: 1, strongest: 36 },
  Nakashima: { height: 0.36, perYear: 0, ratio: 1.13, pace: 0.92, strongest: 37 },
  Brandvold: { height: 0.43, perYear: 0.01, ratio: 1.08, pace: 0.88, strongest: 41 },
  Verhoeven: { height: 0.34, perYear: 0.02, ratio: 0.99, pace: 1.08, strongest: 34, dips: true },
  Sorensen: { height: 0.33, perYear: 0.05, ratio: 1.1, pace: 1, strongest: 33 },
  Almgren: { height: 0.24, perYear: 0.04, ratio: 1.08, pace: 1.05, strongest: 31 },
  Kowhai: { height: 0.3, perYear: 0.05, ratio: 1.1, pace: 1.02, strongest: 32 },
};

/** Test days on which the eight jumped, and those on which they jumped with loads; the young jumped once. */
const jumpDays = [3, 5, 6, 7, 8];
const loadDays = [8];
const youngDays = [8];
const loads = [20, 40, 60]; // kg
/** Push-off distance the loads are worked out with, m: what the simulated jump has. */
const pushOff = 0.38;

const rig = { sampleRate: 1000, plateNoise: 0.6, plateRange: 10_000, quiet: 2, after: 1.6 } as const;
const stream = 83; // apart from the streams of the pulls
const dayError = 0.025;
const trialError = 0.02;

/** Every session of jumps, in order of day and running order. */
export function fernwaterJumps(): FernwaterJumpSession[] {
  return fernwaterDays.flatMap((_, day) =>
    fernwaterPeople.flatMap((person, number) => {
      const jumper = jumpers[person.familyName];
      const days = person.squad === 'senior-eight' ? jumpDays : youngDays;
      if (jumper === undefined || person.missed.includes(day) || !days.includes(day)) return [];
      return sessionsOf({ person, jumper, number, day });
    }),
  );
}

/** The recording of one jump as the club's plates delivered it. */
export function fernwaterJumpRecording({ spec, seed, recordedAt }: FernwaterJump): Recording {
  return { ...recordingOfJumps([simulateJump(spec, seed)]), recordedAt };
}

interface Turn {
  readonly person: FernwaterPerson;
  readonly jumper: Jumper;
  readonly number: number;
  readonly day: number;
}

function sessionsOf(turn: Turn): FernwaterJumpSession[] {
  const { person, jumper, number, day } = turn;
  const random = seededRandom(number * 100 + day, stream);
  const mass = massOn(person, number, day);
  const height = jumper.height * (1 + jumper.perYear * yearsTo(day)) * exactExp(dayError * random.gaussian());
  const first = jumpDays.indexOf(day) <= 0 || person.squad !== 'senior-eight';
  const free = session(turn, random, 'countermovement-jump', 0, { mass, height, first });
  if (person.squad !== 'senior-eight') return [free];
  const squat = session(turn, random, 'squat-jump', 0, { mass, height: height / jumper.ratio, first });
  const loaded = loadDays.includes(day)
    ? loads.map((load) =>
        session(turn, random, 'countermovement-jump-loaded', load, {
          ...{ mass: mass + load, first: true },
          height: heightWith(load, { mass, height, strongest: jumper.strongest }),
        }),
      )
    : [];
  return [free, squat, ...loaded];
}

/**
 * Height with a load, so that mean force over velocity is a straight line from the unloaded jump to the force at no velocity:
 * M g (h / p + 1) = F0 - k sqrt(g h / 2), a quadratic equation of sqrt(h).
 */
function heightWith(
  load: number,
  { mass, height, strongest }: { readonly mass: number; readonly height: number; readonly strongest: number },
): number {
  const g = standardGravity;
  const still = strongest * mass;
  const velocity = Math.sqrt((g * height) / 2);
  const slope = (still - mass * g * (height / pushOff + 1)) / velocity;
  const [a, b, c] = [((mass + load) * g) / pushOff, slope * Math.sqrt(g / 2), (mass + load) * g - still];
  const root = (-b + Math.sqrt(b * b - 4 * a * c)) / (2 * a);
  return root * root;
}

/** Minutes after the first slot of the day at which a test of jumps begins: after the pulls, the loads last. */
const begins = (protocol: string, load: number): number =>
  protocol === 'countermovement-jump' ? 300 : protocol === 'squat-jump' ? 306 : 460 + load;

function session(
  { person, jumper, number, day }: Turn,
  random: SeededRandom,
  protocol: string,
  load: number,
  { mass, height, first }: { readonly mass: number; readonly height: number; readonly first: boolean },
): FernwaterJumpSession {
  const minutes = number * 12 + begins(protocol, load);
  const startedAt = instantOf(day, minutes);
  const kind = protocol === 'squat-jump' ? 'squat' : 'countermovement';
  const usual = usualJump[kind];
  // A heavier jump takes longer over the same way.
  const slower = jumper.pace * Math.sqrt(usual.height / height) ** (load === 0 ? 0.3 : 1);
  const dips = protocol === 'squat-jump' && jumper.dips === true;
  const trials = Array.from({ length: dips ? 3 : 2 }, (_, i): FernwaterJump => {
    const order = i + 1;
    return {
      ...{ order, effort: 'maximal' },
      seed: ((number * 100 + day) * 100 + load) * 10 + order + (kind === 'squat' ? 5 : 0) + 5_000_000,
      recordedAt: instantOf(day, minutes + 1 + i * 1.5),
      spec: {
        ...rig,
        ...{ kind, mass, gravity: standardGravity },
        height: height * exactExp(trialError * random.gaussian()),
        brakeTime: usual.brakeTime * slower,
        pushTime: usual.pushTime * slower,
        leaveTime: usual.leaveTime * slower,
        shareRight: 0.5 + 0.6 * (person.pullShareRight - 0.5) + 0.006 * random.gaussian(),
        ...(dips && i === 0 ? { dip: 0.04 } : {}),
      },
    };
  });
  const which = load === 0 ? protocol : `${protocol}-${load}`;
  return {
    id: `${person.id}-${startedAt.slice(0, 10)}-${which}`,
    person: person.id,
    season: fernwaterDays[day]!.season,
    ...{ startedAt, protocol, trials },
    setup: {
      arms: load === 0 ? 'hands on hips' : 'hands on the bar',
      ...(kind === 'squat' ? { knee_angle: 90 } : {}),
      ...(load === 0 ? {} : { load, load_kind: 'bar on the back' }),
      familiarisation: first,
    },
  };
}
