import { bytesOf, describeText } from '@sthene/formats';
import { expect, it } from 'vitest';
import { fnv1a64, textSignature } from './signature.ts';

// Test vectors of FNV-1a 64 as in draft-eastlake-fnv, appendix "Test Vectors" (from memory).
it.each([
  ['', 'cbf29ce484222325'],
  ['a', 'af63dc4c8601ec8c'],
  ['foobar', '85944171f73967e8'],
])('hashes %j as the draft does', (text, hash) => expect(fnv1a64(text)).toBe(hash));

const signatureOf = async (text: string) => {
  const described = await describeText(bytesOf(new TextEncoder().encode(text), 'file.csv'));
  if (!described.ok) throw new Error(described.error.message);
  return textSignature(described.description);
};
const rows = (count: number, row: (i: number) => string) => Array.from({ length: count }, (_, i) => row(i)).join('\n');

it('is the same for the same columns, whatever the length, the values and the decimal sign', async () => {
  const point = await signatureOf(`time_s,left_n,right_n\n${rows(20, (i) => `${i / 100},${i}.5,${2 * i}.25`)}\n`);
  const comma = await signatureOf(`time_s;left_n;right_n\n${rows(40, (i) => `0,${10 + i};${i},5;7,25`)}\n`);
  expect(comma).toBe(point);
});

it('differs when a column has another name, unit or place', async () => {
  const of = (header: string) => signatureOf(`${header}\n${rows(20, (i) => `${i / 100},${i}.5,${2 * i}.25`)}\n`);
  const all = await Promise.all(
    ['time_s,left_n,right_n', 'time_s,right_n,left_n', 'time_s,left_kn,right_kn', 'time_s,left_n,total_n'].map(of),
  );
  expect(new Set(all).size).toBe(4);
});

it('takes a day with three numbered trials for the same as one with five', async () => {
  const of = (count: number) =>
    signatureOf(
      `time_s,${rows(count, (i) => `rep0${i + 1}`).replaceAll('\n', ',')}\n` +
        `${rows(20, (i) => `${i / 100},${rows(count, (k) => `${i + k}.5`).replaceAll('\n', ',')}`)}\n`,
    );
  expect(await of(3)).toBe(await of(5));
});
