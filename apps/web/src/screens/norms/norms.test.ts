import type { PublishedGroupView } from '@sthene/contract';
import { expect, it } from 'vitest';
import { groupName, peopleOf } from './group-name.ts';
import { typedValue } from './typed-value.ts';

const group: PublishedGroupView = {
  id: 'rowing',
  population: 'rowing',
  sex: 'not-said',
  level: 'academy',
  age: 'under 18',
  weight: 'not-said',
  remark: '',
  source: { authors: 'Somebody', where: 'Somewhere' },
  evidence: 'abstract',
  mean: 2000,
  sd: 200,
};

it('names a published group by what its source says of it', () => {
  expect(groupName(group)).toBe('Rowing, academy, under 18, sex not said');
  expect(groupName({ ...group, sex: 'both', age: undefined })).toBe('Rowing, academy, both sexes');
});

it('never takes the people of all groups for those of one', () => {
  expect(peopleOf({ ...group, n: 20 })).toBe('20');
  expect(peopleOf({ ...group, among: { people: 67, groups: 3 } })).toBe('not known (67 in 3 groups)');
  expect(peopleOf(group)).toBe('not known');
});

it('reads a value with a point or a comma, and nothing else', () => {
  expect([typedValue('2900'), typedValue(' 31,5 '), typedValue('31.5')]).toEqual([2900, 31.5, 31.5]);
  for (const wrong of ['', '0', '-3', '2 900', '1e3', 'x', '3.']) expect(typedValue(wrong)).toBeUndefined();
});
