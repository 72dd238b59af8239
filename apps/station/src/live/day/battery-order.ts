import type { BatteryOrder } from '@sthene/contract';

interface Test {
  readonly test: string;
}

interface OneTest extends Test {
  readonly person: string;
}

/** Everybody with every test: person by person in a battery that is run so, else test by test. */
export function firstOrder(
  people: readonly string[],
  plans: readonly Test[],
  battery: BatteryOrder | undefined,
): OneTest[] {
  return battery === 'by-person'
    ? people.flatMap((person) => plans.map(({ test }) => ({ person, test })))
    : plans.flatMap(({ test }) => people.map((person) => ({ person, test })));
}

/** A running order sorted anew: people keep their order, and each of them the order of their tests. */
export function sorted<T extends OneTest>(entries: readonly T[], plans: readonly Test[], battery: BatteryOrder): T[] {
  const people = [...new Set(entries.map(({ person }) => person))];
  const key = ({ person, test }: T) =>
    battery === 'by-person' ? people.indexOf(person) : plans.findIndex((plan) => plan.test === test);
  const second = ({ person }: T) => (battery === 'by-person' ? 0 : people.indexOf(person));
  return [...entries].sort((a, b) => key(a) - key(b) || second(a) - second(b));
}

/**
 * Where a test that is added to a battery belongs: person by person behind the person's other tests, test by test behind the others
 * with that test.
 *
 * @returns place from 1; undefined: at the end
 */
export function placeInBattery(
  entries: readonly OneTest[],
  added: OneTest,
  plans: readonly Test[],
  battery: BatteryOrder | undefined,
): number | undefined {
  if (battery === undefined) return undefined;
  const stage = (test: string) => plans.findIndex((plan) => plan.test === test);
  const before = entries.findLastIndex((one) =>
    battery === 'by-person' ? one.person === added.person : stage(one.test) <= stage(added.test),
  );
  return before < 0 && battery === 'by-person' ? undefined : before + 2;
}
