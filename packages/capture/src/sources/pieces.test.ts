import type { MonotonicNanoseconds } from '@sthene/core';
import { expect, it } from 'vitest';
import { Pieces } from './pieces.ts';

const at = (n: number) => BigInt(n) as MonotonicNanoseconds;

it('gives each piece back once, in order, with its time, though the bytes it came in were reused', () => {
  const pieces = new Pieces();
  const reused = new Uint8Array(3);
  for (let i = 0; i < 4; i++) {
    reused.fill(i);
    pieces.add(reused.subarray(0, 1 + (i % 3)), at(i));
  }
  const seen: [number[], bigint][] = [];
  const drain = () => pieces.drain((piece, time) => seen.push([[...piece], time]));
  drain();
  drain();
  expect(seen).toEqual([
    [[0], 0n],
    [[1, 1], 1n],
    [[2, 2, 2], 2n],
    [[3], 3n],
  ]);
});

it('holds more than it usually does', () => {
  const pieces = new Pieces();
  for (let i = 0; i < 3; i++) pieces.add(new Uint8Array(20_000).fill(i), at(i));
  const sizes: number[] = [];
  pieces.drain((piece, time) => sizes.push(piece.every((byte) => BigInt(byte) === time) ? piece.length : -1));
  expect(sizes).toEqual([20_000, 20_000, 20_000]);
});
