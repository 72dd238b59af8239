import { describe, expect, it } from 'vitest';
import type { Run } from '../codec/run.ts';
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
});
