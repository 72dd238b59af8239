import type { StreamChannel } from '@sthene/capture';
import { describe, expect, it } from 'vitest';
import { placesOnPlates } from '../../src/live/rig-check/place-now.ts';

// A mass of 50 kg at (120, -80) mm of a surface 40 mm above the origin, z down: F = 490.5 N, Mx = y F, My = -x F about the
// middle of the surface and, without shear, about the origin under it as well.
const channels = (plate: string): StreamChannel[] =>
  (['x', 'y', 'z', 'mx', 'my', 'mz'] as const).map((axis) => ({
    ...{
      name: `${plate} ${axis}`,
      plate,
      side: 'none',
      axis,
      unit: axis.startsWith('m') ? 'N.m' : 'kN',
      scale: 1,
      offset: 0,
    },
    ...(axis === 'z' ? { surface: { origin: [0, 0, -40] as const } } : {}),
  }));
const load = [0, 0, 0.4905, (-80 * 490.5) / 1000, (-120 * 490.5) / 1000, 0];
const empty = [0.001, -0.002, 0.006, 0.8, -0.4, 0.1];
const zeros = Object.fromEntries(channels('A').map(({ name }, c) => [name, c === 2 ? 6 : empty[c]!]));

describe('where a mass stands on a plate of three axes', () => {
  it('is told from its middle, less what the empty plate showed', () => {
    const shown = load.map((value, c) => value + empty[c]!);
    const place = placesOnPlates(channels('A'), shown, zeros).get('A');
    expect(place?.x).toBeCloseTo(120, 6);
    expect(place?.y).toBeCloseTo(-80, 6);
    expect(placesOnPlates(channels('A'), shown, {}).get('A')?.x).not.toBeCloseTo(120, 0);
  });

  it('is not told of an empty plate, nor of one that gives a vertical force alone', () => {
    expect(placesOnPlates(channels('A'), empty, zeros).size).toBe(0);
    expect(placesOnPlates([channels('A')[2]!], [0.4905], {}).size).toBe(0);
  });
});
