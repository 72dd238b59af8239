import { have, type Outcome } from '../../outcome.ts';
import { meanOf } from '../../signal/index.ts';
import {
  type ByChance,
  type Change,
  type ChangeQuestion,
  combinedError,
  judgeChange,
  ownError,
  sessionsToHalve,
  smallestConfirmable,
  wordByChance,
} from '../change/index.ts';
import type { ErrorOfTest } from '../reliability/index.ts';
import { onScale, type TestNoise } from './noise.ts';

/** One session of the athlete who is followed, oldest first. */
export interface OwnSession {
  readonly day: number;
  readonly value: number;
  /** Familiarisation: shown, but neither noise nor reference. */
  readonly first: boolean;
}

/** What the newest session is held against; a best is a record and no reference. */
export type Reference = 'last' | 'first' | 'mean-of-three' | 'season-start';
export const references: readonly Reference[] = ['last', 'mean-of-three', 'season-start', 'first'];

/** A change against one reference, on the scale of the noise. */
export interface Followed {
  readonly reference: Reference;
  /** Positions of the sessions behind the reference. */
  readonly sessions: readonly number[];
  /** The reference itself, on the scale. */
  readonly value: number;
  readonly change: Change;
  readonly chance: ByChance;
  /** Smallest true gain that would be called stronger four times in five, and sessions a side that halve it. */
  readonly confirmable: number;
  readonly halve: number | undefined;
}

/** The error used, and where it comes from. */
export interface UsedError {
  readonly own: Outcome<ErrorOfTest>;
  readonly used: Outcome<ErrorOfTest>;
}

/** The athlete's own error and the one a change is judged by. Sessions of familiarisation stay out. */
export function errorFor(
  sessions: readonly OwnSession[],
  noise: Outcome<TestNoise>,
  scale: TestNoise['scale'],
): UsedError {
  const own = sessions.filter(({ first }) => !first);
  const found = ownError(
    own.map(({ day }) => day),
    own.map(({ value }) => onScale(scale, value)),
  );
  return {
    own: found,
    used: combinedError(noise.ok ? noise.value.error : undefined, found.ok ? found.value : undefined),
  };
}

/**
 * Sessions behind each reference for the newest one; empty where there are not enough.
 *
 * @param season day on which the newest session's season began; its first session is the season's start
 */
export function referenceSessions(
  sessions: readonly OwnSession[],
  reference: Reference,
  season = Number.NEGATIVE_INFINITY,
): readonly number[] {
  const before = sessions.flatMap(({ first }, at) => (first || at === sessions.length - 1 ? [] : [at]));
  if (reference === 'season-start')
    return before
      .filter((at) => season > Number.NEGATIVE_INFINITY && (sessions[at] as OwnSession).day >= season)
      .slice(0, 1);
  if (reference === 'first') return before.slice(0, 1);
  if (reference === 'last') return before.slice(-1);
  return before.length < 3 ? [] : before.slice(-3);
}

/** Judges the newest session against one reference. @param unlike whether setup, rig, method or gravity differ from the reference's */
export function follow(
  sessions: readonly OwnSession[],
  reference: Reference,
  given: {
    readonly scale: TestNoise['scale'];
    readonly error: ErrorOfTest;
    readonly worthwhile: number;
    readonly better: ChangeQuestion['better'];
    readonly unlike: boolean;
    readonly season?: number | undefined;
    /** What the newest session and those behind the reference owe to different rigs or checks, on the scale. */
    readonly rigs?: number | undefined;
  },
): Outcome<Followed> {
  const behind = referenceSessions(sessions, reference, given.season);
  const newest = sessions.at(-1);
  if (behind.length === 0 || newest === undefined) return { ok: false, reason: 'too-few-values' };
  const { scale, error, worthwhile, better, unlike, rigs = 0 } = given;
  const value = meanOf(behind.map((at) => onScale(scale, (sessions[at] as OwnSession).value)));
  const test = { error, worthwhile, sessions: [1, behind.length] as const, rigs };
  return have({
    ...{ reference, value },
    sessions: behind,
    change: judgeChange({ ...test, now: onScale(scale, newest.value), reference: value, better, unlike }),
    chance: wordByChance(test),
    confirmable: smallestConfirmable(test),
    halve: sessionsToHalve(test),
  });
}
