import { describe, expect, it } from 'vitest';
import { bytesOf } from '../src/byte-source.ts';
import type { ByteSource, Detection, ReadResult } from '../src/format.ts';
import { seeded } from './sample-recordings.ts';

/** A reader under attack. */
export interface Target {
  readonly id: string;
  detect(head: Uint8Array, length: number, name: string): Detection;
  read(source: ByteSource): Promise<ReadResult>;
  /** A small valid file; a few hundred bytes up to some kilobytes. */
  readonly small: Uint8Array;
  /** Mutated files to try; each has its own seed, printed when it fails. */
  readonly rounds?: number;
  /** Values a reader may return beyond 64 a byte of the file (skipped samples of a time column). */
  readonly extraValues?: number;
}

/** Milliseconds one file may take; generous, because machines are busy: a hang is far beyond it. */
const PATIENCE = 10_000;

/** Reads and judges: a typed error, or recordings whose parts fit together; never an exception, a hang, or memory by promise. */
export async function survive(target: Target, bytes: Uint8Array): Promise<string> {
  const started = performance.now();
  const detection = target.detect(bytes.subarray(0, 65536), bytes.length, 'file');
  expect(['yes', 'maybe', 'no', 'damaged']).toContain(detection.match);
  expect(detection.reason).not.toBe('');
  const result = await target.read(bytesOf(bytes, 'file'));
  expect(performance.now() - started).toBeLessThan(PATIENCE);
  if (!result.ok) {
    expect(result.error.code).toMatch(new RegExp(`^${target.id}-[a-z0-9-]+$`));
    expect(result.error.message.length).toBeGreaterThan(0);
    expect(result.error.message.length).toBeLessThan(500);
    expect(result.error.next.length).toBeGreaterThan(0);
    return result.error.code;
  }
  let values = 0;
  for (const { recording } of result.recordings) {
    expect(Number.isFinite(recording.sampleRate) && recording.sampleRate > 0).toBe(true);
    for (const channel of recording.channels) {
      if (channel.raw.length !== recording.sampleCount)
        throw new Error('a channel has another length than the recording');
      values += channel.raw.length;
    }
    let end = 0;
    for (const gap of recording.gaps) {
      if (!(gap.start >= end && gap.end > gap.start && gap.end <= recording.sampleCount))
        throw new Error('gaps do not fit');
      end = gap.end;
    }
    const names = new Set(recording.channels.map((channel) => channel.name));
    expect(names.size).toBe(recording.channels.length);
  }
  expect(values).toBeLessThanOrEqual(64 * bytes.length + (target.extraValues ?? 0));
  return 'ok';
}

/** One random change of a file: flips, runs, cuts, repeats, swaps, big numbers. */
export function mutate(bytes: Uint8Array, next: () => number): Uint8Array {
  const at = Math.floor(next() * bytes.length);
  const length = 1 + Math.floor(next() ** 3 * 64);
  const stop = Math.min(bytes.length, at + length);
  const join = (...parts: Uint8Array[]) => Uint8Array.from(parts.flatMap((part) => [...part]));
  const changed = bytes.slice();
  switch (Math.floor(next() * 8)) {
    case 0:
      changed[at]! ^= 1 << Math.floor(next() * 8);
      return changed;
    case 1:
      changed.fill(Math.floor(next() * 256), at, stop);
      return changed;
    case 2:
      return join(bytes.subarray(0, at), bytes.subarray(stop));
    case 3:
      return join(bytes.subarray(0, stop), bytes.subarray(at));
    case 4: {
      const from = Math.floor(next() * bytes.length);
      changed.set(
        bytes.subarray(from, Math.min(bytes.length, from + stop - at)),
        Math.min(at, bytes.length - (stop - at)),
      );
      return changed;
    }
    case 5:
      changed.fill(next() < 0.5 ? 0xff : 0x00, at, Math.min(bytes.length, at + 4));
      return changed;
    case 6: {
      const words = [
        '99999999',
        '1e308',
        '-',
        '"',
        '""',
        '\r',
        '\n',
        ',',
        ';',
        '\t',
        '1e-400',
        'NaN',
        '\u0000',
        '=',
        "'",
        '.',
      ];
      const word = new TextEncoder().encode(words[Math.floor(next() * words.length)]);
      return join(
        bytes.subarray(0, at),
        word,
        bytes.subarray(next() < 0.5 ? at : Math.min(bytes.length, at + word.length)),
      );
    }
    default:
      return join(
        bytes.subarray(0, at),
        Uint8Array.from({ length }, () => Math.floor(next() * 256)),
        bytes.subarray(at),
      );
  }
}

/** The suite of damaged files every reader runs. */
export function hostile(target: Target): void {
  describe(`${target.id}: damaged files`, () => {
    it('is fair: the undamaged file reads', async () => {
      expect(await survive(target, target.small)).toBe('ok');
    });

    it('survives a cut at every byte', async () => {
      for (let length = 0; length < target.small.length; length++) {
        await named(`cut at ${length}`, () => survive(target, target.small.slice(0, length)));
      }
    }, 120_000);

    it('survives mutations', async () => {
      const outcomes = new Map<string, number>();
      for (let seed = 1; seed <= (target.rounds ?? 2_000); seed++) {
        const next = seeded(seed * 7919);
        let bytes = target.small;
        for (let n = 1 + Math.floor(next() * 4); n > 0; n--) bytes = mutate(bytes, next);
        const outcome = await named(`seed ${seed}`, () => survive(target, bytes));
        outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
      }
      // A suite in which nothing was refused, or nothing read, would have damaged nothing, or everything.
      expect(outcomes.size).toBeGreaterThan(1);
      expect(outcomes.get('ok')).toBeGreaterThan(0);
    }, 300_000);

    it('refuses what is none of its files', async () => {
      const next = seeded(99);
      const random = Uint8Array.from({ length: 100_000 }, () => Math.floor(next() * 256));
      const repeated = (byte: number, length: number) => new Uint8Array(length).fill(byte);
      const nonsense = {
        random,
        zeros: repeated(0, 200_000),
        ones: repeated(0xff, 200_000),
        quotes: repeated(34, 200_000),
        blanks: repeated(32, 200_000),
      };
      for (const [name, bytes] of Object.entries(nonsense)) {
        expect(await named(name, () => survive(target, bytes)), name).not.toBe('ok');
      }
    });

    it('survives a source that ends before its promised length', async () => {
      for (const share of [0, 0.3, 0.9]) {
        const there = target.small.subarray(0, Math.floor(target.small.length * share));
        const source: ByteSource = { ...bytesOf(there, 'file'), length: target.small.length };
        const result = await target.read(source);
        if (!result.ok) expect(result.error.code).toMatch(/^[a-z0-9]+(-[a-z0-9]+)+$/);
      }
    });
  });
}

async function named<T>(what: string, run: () => Promise<T>): Promise<T> {
  try {
    return await run();
  } catch (cause) {
    throw new Error(`${what}: ${cause instanceof Error ? cause.message : String(cause)}`, { cause });
  }
}
