/** A session by the day it was on. */
interface Dated {
  readonly at: string;
}

const millisecondsOfDay = 86_400_000;
/** Calendar day, days since 1970. */
export const calendarDay = (at: string): number => Date.parse(at.slice(0, 10)) / millisecondsOfDay;

/** Sessions of several tests that belong together, one of each, in the order of the tests. */
export interface Match<T> {
  readonly sessions: readonly T[];
  /** The latest of them, and the days from the first to the last. */
  readonly at: string;
  readonly days: number;
}

/**
 * Sessions of several tests that belong together: those of the test with the fewest sessions, each with the nearest of the others, none used
 * twice, and no two further apart than so many days. The nearest go first, of equally near ones the newest.
 *
 * @param tests sessions of each test, oldest first
 * @returns oldest first
 */
export function matches<T extends Dated>(tests: readonly (readonly T[])[], apart: number): Match<T>[] {
  const found: Match<T>[] = [];
  const used = new Set<T>();
  for (const match of allMatches(tests)) {
    if (match.days > apart || match.sessions.some((one) => used.has(one))) continue;
    for (const one of match.sessions) used.add(one);
    found.push(match);
  }
  return found.sort((a, b) => a.at.localeCompare(b.at));
}

/** Days between the nearest sessions of all tests; undefined where one of them has none. */
export const nearestApart = (tests: readonly (readonly Dated[])[]): number | undefined => allMatches(tests)[0]?.days;

/** Every session of the test with the fewest, with every choice of the others that is the nearest to it on either side; the closest first. */
function allMatches<T extends Dated>(tests: readonly (readonly T[])[]): Match<T>[] {
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
    .map((sessions): Match<T> => {
      const days = sessions.map(({ at }) => calendarDay(at));
      const at =
        sessions
          .map((one) => one.at)
          .sort()
          .at(-1) ?? '';
      return { sessions, at, days: Math.max(...days) - Math.min(...days) };
    })
    .sort((a, b) => a.days - b.days || b.at.localeCompare(a.at));
}

/** The last session up to a day and the first after it. */
function around<T extends Dated>(sessions: readonly T[], { at }: Dated): T[] {
  const day = calendarDay(at);
  const before = sessions.findLast((one) => calendarDay(one.at) <= day);
  const after = sessions.find((one) => calendarDay(one.at) > day);
  return [before, after].flatMap((one) => one ?? []);
}
