import type { SquadTableRow } from '@sthene/contract';
import { expect, it } from 'vitest';
import { fits, positionsOf } from './filter.ts';

const row = (name: string, more: Partial<SquadTableRow> = {}): SquadTableRow => ({
  person: { id: name, name, code: 'FW10' },
  sessions: 1,
  ...more,
});

it('finds by words of name and code, position and what may be pulled', () => {
  const emeka = row('Emeka Sorensen', { position: 'Bow side', availability: 'after-answers' });
  expect(fits(emeka, { text: 'sorens fw10' })).toBe(true);
  expect(fits(emeka, { text: 'sorens fw11' })).toBe(false);
  expect(fits(emeka, { text: '', position: 'Bow side' })).toBe(true);
  expect(fits(emeka, { text: '', position: 'Stroke side' })).toBe(false);
  expect(fits(emeka, { text: '', may: 'limited' })).toBe(true);
  expect(fits(emeka, { text: '', may: 'maximal' })).toBe(false);
  expect(fits(row('A'), { text: '', position: '', may: '' })).toBe(true);
  expect(positionsOf([emeka, row('B'), row('C', { position: 'A' })])).toEqual(['A', 'Bow side']);
});
