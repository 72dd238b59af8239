import type { UtcInstant } from '@sthene/core';
import { dateOf } from '../../live/clock.ts';

/** A session by the day it was on. */
interface Dated {
  readonly at: string;
}

const millisecondsOfDay = 86_400_000;
/** Day of an instant on the station's calendar, `YYYY-MM-DD`. */
export const dayAt = (at: string): string => dateOf(at as UtcInstant);
/** The same, in days since 1970. */
export const calendarDay = (at: string): number => Date.parse(dayAt(at)) / millisecondsOfDay;

/** Sessions of several tests that belong together, one of each, in the order of the tests. */
export interface Match<T> {
  readonly sessions: readonly T[];
  /** The latest of them, and the days from the first to the last. */
  readonly at: string;
  readonly days: number;
}

/**
 * Sessions of several tests that belong together: those of the test with the fewest sessions, each with the nearest of the others, none used
 * twice, and no two further apart than so many days. The nearest in time go first, of equally near ones the newest; then it begins again with
 * what is left.
 *
 * @param tests sessions of each test, oldest first
 * @returns oldest first
 */
export function matches<T extends Dated>(tests: readonly (readonly T[])[], apart: number): Match<T>[] {
  const found: Match<T>[] = [];
  const used = new Set<T>();
  for (let before = -1; before < found.length; ) {
    before = found.length;
    for (const match of neighbours(tests.map((sessions) => sessions.filter((one) => !used.has(one))))) {
      if (match.days > apart || match.sessions.some((one) => used.has(one))) continue;
      for (const one of match.sessions) used.add(one);
      found.push(match);
    }
  }
  return found.sort((a, b) => a.at.localeCompare(b.at));
}

/** Days between the nearest sessions of all tests; undefined where one of them has none. */
export function nearestApart(tests: readonly (readonly Dated[])[]): number | undefined {
  const found = neighbours(tests);
  return found.length === 0 ? undefined : Math.min(...found.map(({ days }) => days));
}

/** Every session of the test with the fewest, with every choice of the others that is the nearest to it on either side; the closest first. */
function neighbours<T extends Dated>(tests: readonly (readonly T[])[]): Match<T>[] {
  const fewest = tests.reduce((least, one) => (one.length < least.length ? one : least), tests[0] ?? []);
  const candidates = fewest.flatMap((anchor) =>
    tests.reduce<readonly (readonly T[])[]>(
      (begun, sessions) =>
        begun.flatMap((chosen) =>
          (sessions === fewest ? [anchor] : around(sessions, anchor)).map((one) => [...chosen, one]),
        ),
      [[]],
    ),
  );
  return candidates
    .map((sessions) => {
      const sorted = sessions.map(({ at }) => at).sort();
      const [first = '', at = ''] = [sorted[0], sorted.at(-1)];
      return { sessions, at, days: calendarDay(at) - calendarDay(first), spread: Date.parse(at) - Date.parse(first) };
    })
    .sort((a, b) => a.spread - b.spread || b.at.localeCompare(a.at))
    .map(({ spread: _, ...match }) => match);
}

/** The last session up to an instant and the first after it. */
function around<T extends Dated>(sessions: readonly T[], { at }: Dated): T[] {
  const before = sessions.findLast((one) => one.at <= at);
  const after = sessions.find((one) => one.at > at);
  return [before, after].flatMap((one) => one ?? []);
}
