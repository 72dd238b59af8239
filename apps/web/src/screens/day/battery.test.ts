import { expect, it } from 'vitest';
import { inUsualOrder, movedWithPerson, placeBeside } from './battery.ts';

it('puts jumps before isometric efforts', () => {
  expect(inUsualOrder(['imtp', 'squat-jump', 'countermovement-jump']).at(-1)).toBe('imtp');
  expect(inUsualOrder(['imtp'])).toEqual(['imtp']);
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

it('goes past the whole athlete beside it', () => {
  expect(placeBeside(lines, 'a1', 1)).toBe(3);
  expect(placeBeside(lines, 'c1', -1)).toBe(2);
  expect(placeBeside(lines, 'a1', -1)).toBe(0);
  expect(placeBeside(lines, 'c1', 1)).toBe(4);
  expect(placeBeside(lines, 'b2', -1)).toBe(2);
});
