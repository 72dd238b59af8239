import type { UtcInstant } from '@sthene/core';

/** Wall clock. The store never asks the machine for the time by itself. */
export interface Clock {
  now(): UtcInstant;
}

/** Source of record ids: unique, unguessable text of at most 64 letters, digits, `-` or `_`. */
export interface Ids {
  next(): string;
}

/**
 * Who does something, and where. `by` is the id of an account, never a person's name: it stands in the audit trail, which
 * must hold nothing that may have to be erased.
 */
export interface Actor {
  readonly by: string;
  readonly role?: string;
  readonly station: string;
}
