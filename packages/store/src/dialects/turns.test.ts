import { expect, it } from 'vitest';
import { Turns } from './turns.ts';

it('gives each its turn in the order they came, one at a time, also to those who come meanwhile', async () => {
  const turns = new Turns();
  const order: string[] = [];
  let inside = 0;
  const act = async (name: string, then?: () => void): Promise<void> => {
    await turns.next();
    expect(++inside).toBe(1);
    await Promise.resolve();
    order.push(name);
    then?.();
    inside--;
    turns.done();
  };
  const later: Promise<void>[] = [];
  await Promise.all([act('a', () => later.push(act('d'))), act('b'), act('c')]);
  await Promise.all(later);
  await act('e');
  expect(order).toEqual(['a', 'b', 'c', 'd', 'e']);
});
