import type { BatteryOrder } from '@sthene/contract';
import { protocolRegistry } from '@sthene/core';

/**
 * People who have every test that may be given to them, so that nobody can add them again.
 *
 * @param tests the one test they would be added with, or all of the day
 */
export function withEvery(
  entries: readonly { readonly person: { readonly id: string }; readonly test: string }[],
  tests: readonly string[],
): ReadonlySet<string> {
  const people = new Set(entries.map(({ person }) => person.id));
  const has = (id: string, test: string) => entries.some((one) => one.person.id === id && one.test === test);
  return new Set([...people].filter((id) => tests.every((test) => has(id, test))));
}

/** Jumps before maximal isometric efforts, each in the order in which the tests are listed: common practice. */
export function inUsualOrder(tests: readonly string[]): readonly string[] {
  const listed = protocolRegistry.all.map(({ id }) => id);
  const rank = (test: string) =>
    (protocolRegistry.get(test)?.jump === undefined ? listed.length : 0) + listed.indexOf(test);
  return [...tests].sort((a, b) => rank(a) - rank(b));
}

/** A line of the running order with whose it is. */
interface Line {
  readonly id: string;
  readonly person: { readonly id: string };
}

/**
 * The order after one line was moved where athletes go through all their tests one by one: the first line of an athlete takes all of
 * theirs along, another one moves among the athlete's own.
 *
 * @param to place of the line after the move, from 0
 */
export function movedWithPerson(lines: readonly Line[], id: string, to: number): readonly string[] {
  const ids = lines.map((one) => one.id);
  const from = ids.indexOf(id);
  const person = lines[from]?.person.id;
  if (person === undefined || from === to) return ids;
  const own = lines.filter((one) => one.person.id === person).map((one) => one.id);
  if (own[0] !== id) {
    const places = own.map((one) => ids.indexOf(one));
    const place = Math.min(Math.max(to, places[0] as number), places.at(-1) as number);
    const rest = ids.filter((one) => one !== id);
    return [...rest.slice(0, place), id, ...rest.slice(place)];
  }
  const others = lines.filter((one) => one.person.id !== person);
  const people = [...new Set(others.map((one) => one.person.id))];
  // Before whom it comes: going down it passes everybody up to the line it was put on.
  const passed = new Set(lines.slice(0, to + (to > from ? 1 : 0)).map((one) => one.person.id));
  const before = people.filter((one) => passed.has(one));
  const linesOf = (who: readonly string[]) =>
    who.flatMap((one) => others.filter((line) => line.person.id === one).map((line) => line.id));
  return [...linesOf(before), ...own, ...linesOf(people.filter((one) => !passed.has(one)))];
}

/** Whether a line is a further test of the athlete of the line before. */
export const followsOn = (lines: readonly Line[], i: number, battery: BatteryOrder | undefined): boolean =>
  battery === 'by-person' && lines[i]?.person.id === lines[i - 1]?.person.id;

/** Where a move by one place leads: the first line of an athlete goes past the whole athlete beside it. */
export function placeBeside(lines: readonly Line[], id: string, by: 1 | -1): number {
  const from = lines.findIndex((one) => one.id === id);
  const person = lines[from]?.person.id;
  const first = lines.findIndex((one) => one.person.id === person);
  if (first !== from) return from + by;
  if (by < 0) {
    const before = lines[from - 1]?.person.id;
    return before === undefined ? from : lines.findIndex((one) => one.person.id === before);
  }
  const next = lines.slice(from).find((one) => one.person.id !== person)?.person.id;
  return next === undefined ? from : lines.findLastIndex((one) => one.person.id === next);
}
