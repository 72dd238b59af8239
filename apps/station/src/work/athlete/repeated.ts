import type { Table } from '@sthene/core/stats';
import type { LabHistory } from './history.ts';
import type { SessionOfMetric } from './session-values.ts';

/**
 * For the reliability of a test: the newest `count` sessions of each athlete that have a value, familiarisation left out, the newest on
 * the right; who has fewer has holes on the left. Athletes without one stay out.
 */
export function newestSessions(
  { everyone, unit }: Pick<LabHistory, 'everyone' | 'unit'>,
  count: number,
  who: (person: string) => boolean = () => true,
): Map<string, readonly (SessionOfMetric | null)[]> {
  const own = new Map<string, SessionOfMetric[]>();
  for (const one of everyone) {
    if (one.value === undefined || one.familiarisation || one.unit !== unit || !who(one.person)) continue;
    const sessions = own.get(one.person);
    if (sessions === undefined) own.set(one.person, [one]);
    else sessions.push(one);
  }
  return new Map(
    [...own].map(([person, all]) => {
      const newest = all.slice(-count);
      return [person, [...new Array<null>(count - newest.length).fill(null), ...newest]];
    }),
  );
}

/** Their values as a table: a row a person. */
export const valuesOf = (newest: ReturnType<typeof newestSessions>): Table =>
  [...newest.values()].map((sessions) => sessions.map((one) => one?.value ?? null));
