import { protocolRegistry, type SetupField } from '@sthene/core';
import type { Session } from '@sthene/store';
import type { RigCheckThen } from '../uncertainty/rig-check.ts';

/** What a session's values depend on besides the athlete. */
export interface Circumstances {
  readonly session: Session;
  readonly methods: readonly string[];
  /** The check of the rig that held; absent where none is known. */
  readonly check?: RigCheckThen | undefined;
  /** Of a ratio: the sessions of its other tests, in the order of its sides. */
  readonly others?: readonly Measured[];
}

/** One session and the check that held. */
export type Measured = Pick<Circumstances, 'session' | 'check'>;

/** Every session behind a value: its own, and those of a ratio's other tests. */
export const measuredIn = (one: Circumstances): readonly Measured[] => [one, ...(one.others ?? [])];

/** Fields that move no force. */
const besides: ReadonlySet<string> = new Set(['notes', 'footwear', 'familiarisation']);

/**
 * Differences of a setup that two careful people measure on the same athlete (common practice with goniometer and tape): smaller ones
 * are the same setup.
 */
const sameWithin: Readonly<Record<string, number>> = { deg: 5, cm: 2 };

/**
 * What differs between two sessions and may move a value without the athlete: setup fields, the rig, the method, local gravity. A field that one
 * of them does not tell is not known to differ. Of two ratios: what differs between the sessions of any of their tests.
 *
 * @returns titles to read aloud, setup first
 */
export function unlikeness(one: Circumstances, other: Circumstances): string[] {
  const theirs = measuredIn(other);
  const found = measuredIn(one).map((own, i) => {
    const its = theirs[i];
    return its === undefined ? { setup: [], place: [] } : unlike(own.session, its.session);
  });
  const method = one.methods.join() === other.methods.join() ? [] : ['Method'];
  const place = found.flatMap((each) => each.place);
  return [
    ...new Set([
      ...found.flatMap(({ setup }) => setup),
      ...place.filter((title) => title === rigTitle),
      ...method,
      ...place,
    ]),
  ];
}

const rigTitle = 'Rig';

/** What differs in setup and place between two sessions of one test. */
function unlike(one: Session, other: Session): { readonly setup: string[]; readonly place: string[] } {
  const fields = protocolRegistry.get(one.protocol.id)?.setupFields ?? [];
  const setup = fields.flatMap((field) => {
    const [a, b] = [one.setup[field.id], other.setup[field.id]];
    return besides.has(field.id) || a === undefined || b === undefined || same(field, a, b) ? [] : [field.title];
  });
  const otherRig = one.rig !== undefined && other.rig !== undefined && one.rig !== other.rig;
  const otherGravity = Math.abs(one.gravity - other.gravity) > 1e-9;
  return { setup, place: [...(otherRig ? [rigTitle] : []), ...(otherGravity ? ['Local gravity'] : [])] };
}

function same({ unit }: SetupField, a: string | number | boolean, b: string | number | boolean): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= (sameWithin[unit ?? ''] ?? 0);
  return String(a).trim().toLowerCase() === String(b).trim().toLowerCase();
}
