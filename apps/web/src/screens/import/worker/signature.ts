import type { Recording } from '@sthene/core';
import type { TextDescription } from '@sthene/formats';

const offset = 0xcbf29ce484222325n;
const prime = 0x100000001b3n;

/**
 * FNV-1a, 64 bit, of a text's UTF-8 bytes, as 16 hexadecimal digits. A short stable name, no protection against intent.
 *
 * Source: draft-eastlake-fnv, "The FNV Non-Cryptographic Hash Algorithm".
 */
export function fnv1a64(text: string): string {
  let hash = offset;
  for (const byte of new TextEncoder().encode(text)) hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * prime);
  return hash.toString(16).padStart(16, '0');
}

/**
 * The name under which a mapping is kept: equal for files whose columns have the same names, units and order, whatever their
 * length, values, preamble or decimal sign. Columns that are only numbered (one trial each) count as one, so that a day
 * with three pulls matches one with five.
 */
export function textSignature({ layout, columns }: Pick<TextDescription, 'layout' | 'columns'>): string {
  const cells = columns.map(({ name, unit, role }) => [
    role === 'channel' && layout === 'trials' ? bare(name) : name,
    unit,
  ]);
  const distinct = layout === 'trials' ? [...new Set(cells.map((cell) => JSON.stringify(cell)))] : cells;
  return `text-${fnv1a64(JSON.stringify([layout, distinct]))}`;
}

/** The same for files that describe their channels and platforms themselves. */
export function recordingSignature(
  format: string,
  { channels, platforms }: Pick<Recording, 'channels' | 'platforms'>,
): string {
  const described = [channels.map(({ name, unit }) => [name, unit]), platforms.map(({ name, type }) => [name, type])];
  return `${format}-${fnv1a64(JSON.stringify(described))}`;
}

const bare = (name: string) => name.replace(/[\s_.#-]*\d+$/, '');
