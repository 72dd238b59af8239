import { expect, it } from 'vitest';
import { hexRows } from './hex-rows.ts';

it('lists bytes with their place and what can be read of them', () => {
  expect(hexRows('')).toEqual([]);
  expect(hexRows('31322c330a')).toEqual([{ at: '0000', bytes: '31 32 2c 33 0a', text: '12,3.' }]);
  const rows = hexRows('aa'.repeat(17));
  expect(rows.map(({ at }) => at)).toEqual(['0000', '0010']);
  expect(rows[1]).toEqual({ at: '0010', bytes: 'aa', text: '.' });
});
