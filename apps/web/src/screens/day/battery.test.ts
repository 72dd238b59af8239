import { expect, it } from 'vitest';
import { followsOn, inUsualOrder, movedWithPerson, placeBeside, withEvery } from './battery.ts';

it('puts jumps before isometric efforts', () => {
  expect(inUsualOrder(['imtp', 'squat-jump', 'countermovement-jump']).at(-1)).toBe('imtp');
  expect(inUsualOrder(['imtp'])).toEqual(['imtp']);
});

it('adds somebody again who lacks one of the tests, and nobody who has them all', () => {
  const has = (id: string, test: string) => ({ person: { id }, test });
  const there = [has('wren', 'imtp'), has('wren', 'squat-jump'), has('otter', 'imtp')];
  expect([...withEvery(there, ['imtp', 'squat-jump'])]).toEqual(['wren']);
  expect([...withEvery(there, ['imtp'])]).toEqual(['wren', 'otter']);
});

const lines = ['a1', 'a2', 'b1', 'b2', 'c1', 'c2'].map((id) => ({ id, person: { id: id.slice(0, 1) } }));
const moved = (id: string, to: number) => movedWithPerson(lines, id, to).join(' ');

it('takes all tests of an athlete along with the first', () => {
  expect(moved('a1', 2)).toBe('b1 b2 a1 a2 c1 c2');
  expect(moved('a1', 3)).toBe('b1 b2 a1 a2 c1 c2');
  expect(moved('a1', 5)).toBe('b1 b2 c1 c2 a1 a2');
  expect(moved('c1', 0)).toBe('c1 c2 a1 a2 b1 b2');
  expect(moved('c1', 2)).toBe('a1 a2 c1 c2 b1 b2');
});

it("moves another test among the athlete's own", () => {
  expect(moved('a2', 0)).toBe('a2 a1 b1 b2 c1 c2');
  expect(moved('b2', 0)).toBe('a1 a2 b2 b1 c1 c2');
  expect(moved('b2', 5)).toBe('a1 a2 b1 b2 c1 c2');
});

it('knows a further test of the athlete of the line before, where tests stand together', () => {
  expect(lines.map((_, i) => followsOn(lines, i, 'by-person'))).toEqual([false, true, false, true, false, true]);
  expect(lines.some((_, i) => followsOn(lines, i, 'by-test'))).toBe(false);
});

it('goes past the whole athlete beside it', () => {
  expect(placeBeside(lines, 'a1', 1)).toBe(3);
  expect(placeBeside(lines, 'c1', -1)).toBe(2);
  expect(placeBeside(lines, 'a1', -1)).toBe(0);
  expect(placeBeside(lines, 'c1', 1)).toBe(4);
  expect(placeBeside(lines, 'b2', -1)).toBe(2);
});
