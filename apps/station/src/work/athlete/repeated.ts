import type { Table } from '@sthene/core/stats';
import type { LabHistory } from './history.ts';

/** The newest sessions of each athlete as a table: a row a person, the newest on the right. */
export interface RepeatedSessions {
  readonly people: readonly string[];
  readonly values: Table;
}

/**
 * For the reliability of a test: the newest `count` sessions of each athlete that have a value, familiarisation left out; who has fewer has
 * holes on the left. Athletes without one stay out.
 */
export function newestSessions(
  { everyone, unit }: Pick<LabHistory, 'everyone' | 'unit'>,
  count: number,
  who: (person: string) => boolean = () => true,
): RepeatedSessions {
  const own = new Map<string, number[]>();
  for (const { person, value, familiarisation, unit: its } of everyone) {
    if (value === undefined || familiarisation || its !== unit || !who(person)) continue;
    const values = own.get(person);
    if (values === undefined) own.set(person, [value]);
    else values.push(value);
  }
  return {
    people: [...own.keys()],
    values: [...own.values()].map((all) => {
      const newest = all.slice(-count);
      return [...new Array<null>(count - newest.length).fill(null), ...newest];
    }),
  };
}
