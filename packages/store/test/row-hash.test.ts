import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { rowHash } from '../src/audit/row-hash.ts';
import { canonicalJson } from '../src/json.ts';

// The definition, with Node's own SHA-256 (OpenSSL) over the whole text at once.
const plainly = (row: object) => createHash('sha256').update(canonicalJson(row)).digest('hex');

it.each([
  ['short', 'a "short" text'],
  ['ascii', '{"a":"b\\n","c":1.5}'.repeat(400)],
  ['accents and pairs', JSON.stringify({ by: 'Zoë 🚣', path: 'C:\\fern' }).repeat(300)],
  ['control characters', 'tab\there\nand\u0000there'.repeat(300)],
  ['half a pair', `${'x'.repeat(5_000)}\ud83d`],
  ['exactly at the limit', '"'.repeat(4_096)],
])('hashes a row with a long text as its canonical JSON: %s', (_, document) => {
  const row = { id: 'r1', zeta: 1, document, absent: undefined, none: null, alpha: 'ä', list: [1, { b: 2, a: 1 }] };
  expect(rowHash(row)).toBe(plainly(row));
  expect(rowHash({ ...row, second: document })).toBe(plainly({ ...row, second: document }));
});
