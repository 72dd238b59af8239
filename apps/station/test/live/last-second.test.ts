import { seededRandom } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { channelSecond } from '../../src/live/rig/last-second.ts';

const channel = { name: 'left', plate: 'left', side: 'left', axis: 'z', unit: 'N', scale: 0.5, offset: 20 } as const;

describe('the last second of a channel', () => {
  const random = seededRandom(5, 1);
  const noise = Float64Array.from({ length: 1000 }, () => 100 + random.gaussian());

  it('has mean and SD in its unit, with scale and offset, and without what is missing', () => {
    // By hand: raw 10, 12, 14 has mean 12 and SD 2; (12 - 20) * 0.5 = -4 and 2 * 0.5 = 1.
    expect(channelSecond(Float64Array.of(10, 12, Number.NaN, 14), channel, 1000)).toEqual({ mean: -4, sd: 1 });
    expect(channelSecond(Float64Array.of(Number.NaN), channel, 1000)).toBeUndefined();
    expect(channelSecond(noise, channel, 1000)?.mains).toBeUndefined();
  });

  it.each([50, 60])('names mains of %i Hz that stand out of the noise', (frequency) => {
    const hum = noise.map((value, i) => value + 0.8 * Math.sin((2 * Math.PI * frequency * i) / 1000 + 0.7));
    const { mains } = channelSecond(hum, channel, 1000)!;
    expect(mains!.frequency).toBe(frequency);
    // Amplitude 0.8 raw is 0.4 N; the noise of 1000 samples leaves about 1 * sqrt(2 / 1000) = 0.045 raw of doubt each way.
    expect(Math.abs(mains!.amplitude - 0.4)).toBeLessThan(0.1);
  });

  it('says when a value stood at the end of the range, and nothing where none is described', () => {
    const ranged = { ...channel, rawRange: [-200, 200] as const };
    expect(channelSecond(Float64Array.of(1, 200, 3), ranged, 1000)).toMatchObject({ saturated: true });
    expect(channelSecond(Float64Array.of(1, 199, 3), ranged, 1000)).toMatchObject({ saturated: false });
    expect(channelSecond(Float64Array.of(1), channel, 1000)).not.toHaveProperty('saturated');
  });
});
