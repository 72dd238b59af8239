import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { exchangePage, exchangePageWith } from './exchange-format.ts';

it('says every column of the exchange file, and every code, as the program has them', () => {
  const text = readFileSync(exchangePage, 'utf8');
  expect(text, 'Run: npx tsx --conditions=source tools/docs/exchange-format.ts').toBe(exchangePageWith(text));
  // Written by hand: each refusal of a whole table has its row.
  const errors = readFileSync(new URL('../../packages/formats/src/results-table/errors.ts', import.meta.url), 'utf8');
  const codes = [...errors.matchAll(/'(table-[a-z-]+)'/g)].map(([, code]) => code as string);
  expect(codes.length).toBeGreaterThan(5);
  for (const code of codes) expect(text).toContain(`\`${code}\``);
});
