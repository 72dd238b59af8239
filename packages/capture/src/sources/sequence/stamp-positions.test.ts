import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import type { Packet, StreamChannel } from '../../packets/packet.ts';
import type { Run } from '../codec/run.ts';
import { Sequencer } from './sequencer.ts';
import { stampPositions } from './stamp-positions.ts';

const rate = 1000;
const run = (time: number | undefined, count = 1): Run => ({
  count,
  values: new Float64Array(count),
  ...(time === undefined ? {} : { time }),
});

/** Lets runs go by as they come in order; the answers to `ahead`. */
function through(runs: readonly Run[], positions = stampPositions(rate)) {
  return runs.map((one) => {
    const ahead = positions.ahead(one);
    if (typeof ahead === 'number' && ahead < 0) return ahead;
    positions.accept(one);
    return ahead;
  });
}

/** The same numbers each time, -1 to 1. */
function noise(): () => number {
  let state = 7;
  return () => {
    state = (state * 16_807) % 2_147_483_647;
    return (2 * state) / 2_147_483_647 - 1;
  };
}

describe('positions by time stamps', () => {
  it('of even stamps: each follows, a loss of one sample is told once the stamps are known to be even, to the sample', () => {
    const positions = stampPositions(rate);
    const even = Array.from({ length: 4000 }, (_, i) => run(50 + i / rate));
    expect(new Set(through(even, positions))).toEqual(new Set([0]));
    expect(through([run(54 + 1 / rate), run(54 + 2 / rate), run(54 + 40 / rate)], positions)).toEqual([1, 0, 37]);
  });

  it('of chunks with one stamp each: samples without a stamp follow, whatever the chunk', () => {
    const positions = stampPositions(rate);
    const chunks = Array.from({ length: 300 }, (_, i) => [run(9 + (20 * i) / rate, 15), run(undefined, 5)]).flat();
    expect(new Set(through(chunks, positions))).toEqual(new Set([0, undefined]));
    expect(positions.ahead(run(9 + 6020 / rate, 20))).toBe(20);
  });

  it('of stamps a program makes as well as it can: no loss where none is, none of the samples called late', () => {
    const uneven = noise();
    const jittered = Array.from({ length: 20_000 }, (_, i) => run(50 + (i + 2 * uneven()) / rate));
    // A program's clock never goes back.
    let last = 0;
    const forward = jittered.map((one) => {
      last = Math.max(last + 1e-6, one.time as number);
      return run(last);
    });
    expect(new Set(through(forward))).toEqual(new Set([0]));
    // Read every 16 ms, all of them stamped then.
    const bursts = Array.from({ length: 8000 }, (_, i) => run(50 + (16 * Math.floor(i / 16) + (i % 16) / 100) / rate));
    expect(new Set(through(bursts))).toEqual(new Set([0]));
  });

  it.each([0.995, 1, 1.005])('of a sender whose true rate is %d times the promised one: no loss', (times) => {
    const chunks = Array.from({ length: 2000 }, (_, i) => run((20 * i) / (rate * times), 20));
    expect(new Set(through(chunks))).toEqual(new Set([0]));
  });

  it('tells what comes twice and what comes late by stamps that are not newer', () => {
    const positions = stampPositions(rate);
    through(
      Array.from({ length: 100 }, (_, i) => run((20 * i) / rate, 20)),
      positions,
    );
    expect(positions.ahead(run(1980 / rate, 20))).toBe(-20);
    expect(positions.ahead(run(1960 / rate, 20))).toBe(-40);
    expect(positions.ahead(run(2000 / rate, 20))).toBe(0);
  });

  it('goes on from wherever a sender that began anew is placed', () => {
    const positions = stampPositions(rate);
    through(
      Array.from({ length: 100 }, (_, i) => run(7000 + i / rate)),
      positions,
    );
    const anew = run(3);
    expect(positions.ahead(anew)).toBeLessThan(-1_000_000);
    positions.accept(anew);
    expect([positions.ahead(run(3.001)), positions.seconds(run(3.001)), positions.seconds(run(undefined))]).toEqual([
      0, 3.001, 3.001,
    ]);
  });

  it('of samples that are known to be lost: the one after them stands where it belongs, however uneven the stamps', () => {
    const packets: Packet[] = [];
    const at = (ms: number) => BigInt(ms * 1_000_000) as MonotonicNanoseconds;
    const sequencer = new Sequencer({
      header: { source: 'rig', promisedRate: rate, channels: [{ name: 'z' } as StreamChannel] },
      positions: stampPositions(rate),
      clock: { monotonic: () => at(0), wall: () => '2026-03-14T09:00:00.000Z' as UtcInstant },
      reorderWindow: 0,
      emit: (packet) => packets.push(packet),
    });
    sequencer.take(run(50, 10), at(10));
    sequencer.damage({ fault: 'unreadable', count: 1, samples: 1 }, at(11));
    sequencer.take(run(50.011, 10), at(21));
    sequencer.end(at(30));
    const samples = packets.flatMap((one) => (one.kind === 'samples' ? [[one.first, one.count]] : []));
    expect(samples).toEqual([
      [0, 10],
      [11, 10],
    ]);
    expect(packets.find((one) => one.kind === 'gap')).toMatchObject({ first: 10, count: 1, cause: 'damaged' });
    expect(packets.at(-1)).toMatchObject({ kind: 'end', samples: 20, missing: 1 });
  });
});
