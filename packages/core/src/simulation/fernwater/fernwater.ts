import type { Recording } from '../../recording/recording.ts';
import type { UtcInstant } from '../../recording/sample.ts';
import { seededRandom } from '../random.ts';
import { recordingOf } from '../recording-of.ts';
import { simulatePull } from '../simulate.ts';
import { fernwaterDays, instantOf } from './calendar.ts';
import { type FernwaterJumpSession, fernwaterJumps } from './jumps.ts';
import { massOn, standardGravity } from './mass.ts';
import { type FernwaterPerson, type FernwaterSquad, fernwaterPeople, fernwaterSquads } from './people.ts';
import { type PlannedSession, plannedSessions } from './plan.ts';
import { fernwaterSetup } from './setup.ts';
import { type FernwaterTrial, sessionTrials } from './trials.ts';

/** One athlete's one test on one test day. */
export interface FernwaterSession {
  readonly id: string;
  /** Id of the person. */
  readonly person: string;
  readonly season: string;
  readonly startedAt: UtcInstant;
  /** Id of the test. */
  readonly protocol: string;
  /** Leg of a single-leg test, else `both`. */
  readonly limbs: 'both' | 'left' | 'right';
  /** Weighed on the plates before the first effort: N and kg at standard gravity. */
  readonly bodyWeight: number;
  readonly bodyMass: number;
  readonly setup: Readonly<Record<string, string | number | boolean>>;
  readonly trials: readonly (FernwaterTrial & { readonly recordedAt: UtcInstant })[];
}

/** The whole example lab. */
export interface Fernwater {
  readonly people: readonly FernwaterPerson[];
  readonly squads: readonly FernwaterSquad[];
  readonly sessions: readonly FernwaterSession[];
  /** Jumps, apart from the pulls: another simulation makes their curves. */
  readonly jumps: readonly FernwaterJumpSession[];
}

const stream = 77; // apart from the streams of single pulls

/**
 * The example lab: the invented rowing club Fernwater with invented athletes and three seasons of test days. Plain data; the
 * curve of a trial is made on demand by `fernwaterRecording`. The same on every call and every machine.
 */
export function fernwater(): Fernwater {
  const planned = plannedSessions(fernwaterPeople);
  return {
    people: fernwaterPeople,
    squads: fernwaterSquads,
    sessions: planned.map(sessionOf),
    jumps: fernwaterJumps(),
  };
}

/** The recording of one trial as the club's plates delivered it. */
export function fernwaterRecording(trial: FernwaterSession['trials'][number]): Recording {
  return recordingOf(simulatePull(trial.spec, trial.seed), trial.recordedAt);
}

function sessionOf(planned: PlannedSession): FernwaterSession {
  const { person, personNumber, day, test, number } = planned;
  const random = seededRandom(number + 1, stream);
  const bodyWeight = massOn(person, personNumber, day) * standardGravity;
  const weighed = Math.floor((bodyWeight + 1.5 * random.gaussian()) * 10 + 0.5) / 10;
  // A slot of 12 minutes each; a second test follows an hour after the last slot, the other leg half an hour later.
  const later = test.protocol === 'imtp' ? 0 : test.limbs === 'right' ? 240 : 200;
  const minutes = personNumber * 12 + later;
  const startedAt = instantOf(day, minutes);
  return {
    id: `${person.id}-${startedAt.slice(0, 10)}-${test.protocol}`,
    person: person.id,
    season: fernwaterDays[day]!.season,
    startedAt,
    protocol: test.protocol,
    limbs: test.limbs,
    bodyWeight: weighed,
    bodyMass: weighed / standardGravity,
    setup: fernwaterSetup(planned, random),
    trials: sessionTrials(planned, bodyWeight, random).map((trial) => ({
      ...trial,
      recordedAt: instantOf(day, minutes + 2 + (trial.order - 1) * 2.25),
    })),
  };
}
