import type { TrialPressure } from '@sthene/contract';
import { expect, it } from 'vitest';
import { groundOf } from './pressure-ground.ts';

const plate: TrialPressure['plates'][number] = {
  ...{ name: 'Plate 1', parts: [], mirrored: true },
  outline: [
    [200, 300],
    [-200, 300],
    [-200, -300],
    [200, -300],
  ],
};

it('draws the floor from above: its second axis runs up, that of a plate with z down runs down, x to the right in both', () => {
  const [up, down] = [false, true].map((mirrored) => groundOf([plate], [], 600, mirrored));
  if (up === undefined || down === undefined) throw new Error('no ground');
  for (const { x } of [up, down]) expect(x.at(200)).toBeGreaterThan(x.at(-200));
  expect(up.y.at(300)).toBeLessThan(up.y.at(-300));
  expect(down.y.at(300)).toBeGreaterThan(down.y.at(-300));
  // The same place of the figure, and one millimetre as long along as up.
  expect(down.y.at(300)).toBeCloseTo(up.y.at(-300), 9);
  expect(down.y.at(-300)).toBeCloseTo(up.y.at(300), 9);
  for (const { x, y } of [up, down])
    expect(Math.abs(y.at(300) - y.at(-300)) / (x.at(300) - x.at(-300))).toBeCloseTo(1, 9);
});
