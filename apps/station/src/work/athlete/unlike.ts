import { protocolRegistry, type SetupField } from '@sthene/core';
import type { Session } from '@sthene/store';
import type { RigCheckThen } from '../uncertainty/rig-check.ts';

/** What a session's values depend on besides the athlete. */
export interface Circumstances {
  readonly session: Session;
  readonly methods: readonly string[];
  /** The check of the rig that held; absent where none is known. */
  readonly check?: RigCheckThen | undefined;
}

/** Fields that move no force. */
const besides: ReadonlySet<string> = new Set(['notes', 'footwear', 'familiarisation']);

/**
 * Differences of a setup that two careful people measure on the same athlete (common practice with goniometer and tape): smaller ones
 * are the same setup.
 */
const sameWithin: Readonly<Record<string, number>> = { deg: 5, cm: 2 };

/**
 * What differs between two sessions and may move a value without the athlete: setup fields, the rig, the method, local gravity. A field that one
 * of them does not tell is not known to differ.
 *
 * @returns titles to read aloud, setup first
 */
export function unlikeness(one: Circumstances, other: Circumstances): string[] {
  const fields = protocolRegistry.get(one.session.protocol.id)?.setupFields ?? [];
  const found = fields.flatMap((field) => {
    const [a, b] = [one.session.setup[field.id], other.session.setup[field.id]];
    return besides.has(field.id) || a === undefined || b === undefined || same(field, a, b) ? [] : [field.title];
  });
  const [rig, otherRig] = [one.session.rig, other.session.rig];
  if (rig !== undefined && otherRig !== undefined && rig !== otherRig) found.push('Rig');
  if (one.methods.join() !== other.methods.join()) found.push('Method');
  if (Math.abs(one.session.gravity - other.session.gravity) > 1e-9) found.push('Local gravity');
  return found;
}

function same({ unit }: SetupField, a: string | number | boolean, b: string | number | boolean): boolean {
  if (typeof a === 'number' && typeof b === 'number') return Math.abs(a - b) <= (sameWithin[unit ?? ''] ?? 0);
  return String(a).trim().toLowerCase() === String(b).trim().toLowerCase();
}
