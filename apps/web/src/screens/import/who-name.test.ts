import type { Person } from '@sthene/contract';
import { expect, it } from 'vitest';
import { exactly, matching, newFrom } from './who-name.ts';

const person = (id: string, givenName: string, familyName: string, code: string): Person => ({
  id,
  givenName,
  familyName,
  code,
  squads: [],
  notes: '',
  sessions: 0,
});
const people = [
  person('1', 'Zoé', 'Lindqvist', 'ZL01'),
  person('2', 'Ines', 'Okoro', 'IO01'),
  person('3', 'Ines', 'Okoro', 'IO02'),
];

it('finds by any part of name or code, without accents and case', () => {
  expect(matching(people, 'zoe LIND').map(({ id }) => id)).toEqual(['1']);
  expect(matching(people, 'io0').map(({ id }) => id)).toEqual(['2', '3']);
});

it('takes a name for somebody known only when it is theirs alone', () => {
  expect(exactly(people, 'zoe lindqvist')?.id).toBe('1');
  expect(exactly(people, 'Ines Okoro')).toBeUndefined();
  expect(exactly(people, 'IO02')?.id).toBe('3');
});

it('splits a typed name into given and family name', () => {
  expect(newFrom('  Maria del Mar   Costa ')).toEqual({
    kind: 'new',
    givenName: 'Maria del Mar',
    familyName: 'Costa',
    code: '',
  });
  expect(newFrom('Noa')).toEqual({ kind: 'new', givenName: 'Noa', familyName: '', code: '' });
});
