import type { UtcInstant } from '@sthene/core';
import { StoreError } from './errors.ts';
import { isSha256 } from './hash.ts';

const instantPattern = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/;
const dayPattern = /^\d{4}-\d\d-\d\d$/;
const idPattern = /^[A-Za-z0-9_-]{1,64}$/;

function refuse(field: string, expected: string): never {
  throw new StoreError('bad-value', `${field} must be ${expected}.`, { field, expected });
}

/** An RFC 3339 instant in UTC with exactly three decimals, so that text order is the order of time. */
export function instant(field: string, value: string): UtcInstant {
  // The calendar is asked too: 2026-02-30 has the right shape and is no day.
  if (!instantPattern.test(value) || !isSameInstant(value))
    refuse(field, 'a UTC instant like 2026-01-14T16:42:05.250Z');
  return value as UtcInstant;
}

function isSameInstant(value: string): boolean {
  const time = Date.parse(value);
  return Number.isFinite(time) && new Date(time).toISOString() === value;
}

/** A calendar day, `YYYY-MM-DD`. */
export function day(field: string, value: string): string {
  if (!dayPattern.test(value) || !isSameInstant(`${value}T00:00:00.000Z`)) refuse(field, 'a day like 2001-05-30');
  return value;
}

/** A whole number from 0 to 2^53 - 1; larger ones would change on the way through a double. */
export function wholeNumber(field: string, value: number): number {
  if (!Number.isSafeInteger(value) || value < 0) refuse(field, 'a whole number from 0 to 2^53 - 1');
  return value;
}

/** A finite number. */
export function finite(field: string, value: number): number {
  if (!Number.isFinite(value)) refuse(field, 'a finite number');
  return value;
}

/** A finite number above zero. */
export function positive(field: string, value: number): number {
  if (!(Number.isFinite(value) && value > 0)) refuse(field, 'a number above zero');
  return value;
}

/** Longest name, code or key, in UTF-16 units: PostgreSQL cannot index longer text than about 2,700 bytes. */
export const longestName = 200;

/** Text of at most `longestName` units; kept as it came. */
export function short(field: string, value: string): string {
  if (value.length > longestName) refuse(field, `at most ${longestName} characters long`);
  return value;
}

/** Text that is not only blanks and at most `longestName` units long; kept as it came. */
export function filled(field: string, value: string): string {
  if (value.trim() === '') refuse(field, 'text that is not empty');
  return short(field, value);
}

/** Text with something in it, of any length. */
export function written(field: string, value: string): string {
  if (value.trim() === '') refuse(field, 'text that is not empty');
  return value;
}

/** Folded words of a search; SQLite refuses patterns beyond 50,000 bytes, and nobody searches for that. */
export function searchWords(text: string): string[] {
  return fold(short('text', text))
    .split(' ')
    .filter((word) => word !== '');
}

/** A record id as the id port makes it. */
export function id(field: string, value: string): string {
  if (!idPattern.test(value)) refuse(field, 'an id of 1 to 64 letters, digits, - or _');
  return value;
}

/** A SHA-256 in lower-case hexadecimal; guards every path and every reference made from one. */
export function hash(field: string, value: string): string {
  if (!isSha256(value))
    throw new StoreError('bad-hash', `${field} must be a SHA-256 in 64 hexadecimal digits.`, { field });
  return value;
}

/** One of the listed words. */
export function oneOf<T extends string>(field: string, value: string, words: readonly T[]): T {
  if (!words.includes(value as T)) refuse(field, `one of ${words.join(', ')}`);
  return value as T;
}

/**
 * Text folded for search and for an order that is the same on both engines: compatibility forms joined, accents removed,
 * lower case, blanks single. Never shown.
 */
export function fold(text: string): string {
  return text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase().replace(/\s+/g, ' ').trim();
}

/** A LIKE pattern that finds `word` anywhere, with its own % and _ taken literally; use with `escape '\'`. */
export function containing(word: string): string {
  return `%${word.replace(/[\\%_]/g, (sign) => `\\${sign}`)}%`;
}

/** True for text without half a surrogate pair. Node has the method; the list of what ES2023 has does not. */
export const isWellFormed = (text: string): boolean => (text as string & { isWellFormed(): boolean }).isWellFormed();
