import { describe, expect, it } from 'vitest';
import { philox4x32, seededRandom } from './random.ts';

describe('seeded random numbers', () => {
  // Known answers of Random123 1.x, file kat_vectors, lines "philox4x32 10" (values from memory of that file; the
  // implementation above was written from the paper and meets all three, which chance would not do).
  it.each([
    [[0, 0, 0, 0], 0, 0, [0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8]],
    [
      [0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff],
      0xffffffff,
      0xffffffff,
      [0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd],
    ],
    [
      [0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344],
      0xa4093822,
      0x299f31d0,
      [0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1],
    ],
  ] as const)('meets the published answers of Philox4x32-10', (counter, key0, key1, expected) => {
    const out = new Uint32Array(4);
    philox4x32(Uint32Array.from(counter), key0, key1, out);
    expect([...out]).toEqual([...expected]);
  });

  it('repeats for a seed and differs between seeds and streams', () => {
    const first = (seed: number, stream: number) => {
      const random = seededRandom(seed, stream);
      return Array.from({ length: 9 }, random.uniform);
    };
    expect(first(5, 1)).toEqual(first(5, 1));
    expect(first(5, 1)).not.toEqual(first(6, 1));
    expect(first(5, 1)).not.toEqual(first(5, 2));
  });

  it('draws normal values with the moments and tails of the normal distribution', () => {
    const random = seededRandom(1, 1);
    const n = 200_000;
    let sum = 0;
    let squares = 0;
    let fourth = 0;
    let beyond = 0;
    for (let i = 0; i < n; i++) {
      const x = random.gaussian();
      sum += x;
      squares += x * x;
      fourth += x ** 4;
      if (Math.abs(x) > 1.959964) beyond++; // 97.5 % quantile of the standard normal distribution (standard table)
    }
    // Limits are five standard errors: sd/sqrt(n), sqrt(2/n), sqrt(96/n), sqrt(0.05*0.95/n).
    expect(Math.abs(sum / n)).toBeLessThan(5 / Math.sqrt(n));
    expect(Math.abs(squares / n - 1)).toBeLessThan(5 * Math.sqrt(2 / n));
    expect(Math.abs(fourth / n - 3)).toBeLessThan(5 * Math.sqrt(96 / n));
    expect(Math.abs(beyond / n - 0.05)).toBeLessThan(5 * Math.sqrt((0.05 * 0.95) / n));
  });
});
