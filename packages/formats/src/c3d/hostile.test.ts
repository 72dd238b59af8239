import { describe, expect, it } from 'vitest';
import { smallFile } from '../../test/fixtures/small-c3d.ts';
import { bytesOf } from '../byte-source.ts';
import type { ByteSource } from '../format.ts';
import { detectC3d } from './detect.ts';
import { readC3d } from './read.ts';

/** Reads and returns the code of the refusal or the number of samples; anything thrown fails the test. */
async function outcome(bytes: Uint8Array): Promise<string | number> {
  detectC3d(bytes.subarray(0, 4096), bytes.length, 'x.c3d');
  const result = await readC3d(bytesOf(bytes));
  if (!result.ok) return result.error.code;
  const { recording } = result.recordings[0]!;
  for (const channel of recording.channels) {
    expect(channel.raw.length).toBe(recording.sampleCount);
    expect(Number.isFinite(channel.scale) && Number.isFinite(channel.offset)).toBe(true);
  }
  expect(recording.sampleRate > 0 && Number.isFinite(recording.sampleRate)).toBe(true);
  return recording.sampleCount;
}

describe('damaged C3D files', () => {
  it('survives a cut at every byte and never gives more samples than are there', async () => {
    const seen = new Set<string | number>();
    const whole = smallFile();
    for (let length = 0; length <= whole.length; length++) {
      const got = await outcome(whole.subarray(0, length));
      const frames = Math.max(0, Math.floor((length - 1536) / 48));
      if (typeof got === 'number') expect(got).toBe(2 * Math.min(3, frames));
      else expect(frames).toBe(0);
      seen.add(got);
    }
    expect([...seen]).toEqual(['c3d-empty', 'c3d-too-short', 'c3d-no-data', 2, 4, 6]);
  });

  it('survives every single flipped bit of header, parameters and data', async () => {
    const outcomes = new Map<string | number, number>();
    const whole = smallFile();
    for (let byte = 0; byte < whole.length; byte++) {
      for (let bit = 0; bit < 8; bit++) {
        whole[byte]! ^= 1 << bit;
        const got = await outcome(whole);
        outcomes.set(got, (outcomes.get(got) ?? 0) + 1);
        whole[byte]! ^= 1 << bit;
      }
    }
    // Most bits are padding, names and samples; the file stays readable with them flipped.
    expect(outcomes.get(6)).toBeGreaterThan(15_000);
    expect(outcomes.get('c3d-unknown-processor')).toBeGreaterThan(0);
  });

  it('survives 5 000 random overwrites of eight bytes', async () => {
    // A fixed linear congruential generator (constants of Numerical Recipes): the same files in every run.
    let state = 12345;
    const next = (below: number): number => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return Math.floor((state / 2 ** 32) * below);
    };
    for (let n = 0; n < 5_000; n++) {
      const bytes = smallFile();
      for (let k = 0; k < 8; k++) bytes[next(1664)] = next(256);
      await outcome(bytes);
    }
  });

  it('asks a huge source only for what it needs and allocates by its length', async () => {
    const small = smallFile();
    let asked = 0;
    const source: ByteSource = {
      name: 'lying.c3d',
      length: small.length,
      read: async (offset, length) => {
        asked = Math.max(asked, length);
        return small.subarray(Math.min(offset, small.length), Math.min(offset + length, small.length));
      },
    };
    // 65535 frames are promised, 10 are there (the padding of the last block reads as frames).
    new DataView(small.buffer).setUint16(589 + 12, 65534, true);
    const result = await readC3d(source);
    expect(result.ok && result.recordings[0]!.recording.sampleCount).toBe(20);
    expect(asked).toBeLessThan(256 * 512 + 1);
  });

  it('trims to what a source delivers when it delivers less than its length says', async () => {
    const small = smallFile();
    const source: ByteSource = {
      name: 'shrunk.c3d',
      length: small.length,
      read: async (offset, length) => small.subarray(offset, Math.min(offset + length, 1600)),
    };
    const result = await readC3d(source);
    expect(result.ok && result.recordings[0]!.recording.sampleCount).toBe(2);
  });
});
