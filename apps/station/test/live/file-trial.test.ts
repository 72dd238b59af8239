import type { Packet, SourceDescription } from '@sthene/capture';
import {
  defaultMethod,
  type MonotonicNanoseconds,
  protocolRegistry,
  simulatePull,
  standardGravity,
  type UtcInstant,
} from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { systemClock } from '../../src/live/clock.ts';
import type { LoadedEntry } from '../../src/live/day/loaded.ts';
import { rigsOf } from '../../src/live/headless.ts';
import { fileTrial } from '../../src/live/rig/file-trial.ts';

const pull = simulatePull({ sampleRate: 1000, plateNoise: 0.6 }, 3);
const count = pull.left.length;
const at = 0n as MonotonicNanoseconds;

/** A file of two signals, each its plate's force, and the forces made of them. */
function packets(limit: number): Packet[] {
  const values = new Float64Array(4 * count);
  for (const [c, column] of [pull.left, pull.right, pull.left, pull.right].entries()) values.set(column, c * count);
  const sides = ['left', 'right'] as const;
  return [
    {
      ...{ kind: 'header', source: 'folder', promisedRate: 1000, at, wallClock: '2026-03-02T09:00:00Z' as UtcInstant },
      channels: [
        ...sides.map((side) => ({
          ...{ name: `bridge ${side}`, plate: side, side: 'none' as const, axis: 'other' as const, unit: 'mV/V' },
          ...{ scale: 1, offset: 0, rawRange: [-limit, limit] as const },
        })),
        ...sides.map((side) => ({
          ...{ name: side, plate: side, side, axis: 'z' as const, unit: 'N', scale: 1, offset: 0 },
          madeOf: [{ channel: `bridge ${side}`, factor: 1 }],
        })),
      ],
    },
    { kind: 'samples', first: 0, count, values, at },
    { kind: 'end', samples: count, gaps: 0, missing: 0, at },
  ];
}

const protocol = protocolRegistry.get('imtp');
const entry = {
  protocol,
  person: { id: 'p-wren' },
  plan: { document: {} },
  entry: { setup: {} },
} as unknown as LoadedEntry;
const about = { method: defaultMethod, number: 1, gravity: standardGravity, clock: systemClock };
const judged = (limit: number) => fileTrial(packets(limit), { entry, kind: 'maximal', history: { peaks: [] } }, about);

describe('a file whose forces are made of signals', () => {
  it('is one effort by its forces, with the signals kept beside them', () => {
    const { closed, recorded } = judged(10_000);
    expect(closed.reasons).toEqual([]);
    expect(closed.verdict).toBe(closed.result.verdict);
    expect(recorded.channels.map(({ name }) => name)).toEqual(['left', 'right']);
    expect(recorded.beside?.channels.map(({ name }) => name)).toEqual(['bridge left', 'bridge right']);
    expect(recorded.beside?.raw.map(([first]) => first)).toEqual([pull.left[0], pull.right[0]]);
  });

  it('is held against by a signal at its limit, whatever the forces look like', () => {
    const highest = pull.left.reduce((most, value) => Math.max(most, value), 0);
    const { closed } = judged(highest);
    expect(closed).toMatchObject({ reasons: ['cell-at-limit'], verdict: 'repeat' });
    // The analysis sees the same forces and cannot know.
    expect(closed.result.metrics).toEqual(judged(10_000).closed.result.metrics);
  });
});

it('makes one rig of two sources whose matrices make a side each', () => {
  const plate = (side: 'left' | 'right'): SourceDescription => ({
    ...{ schema: 'sthene.source/1', name: side, rate: 1000 },
    transport: { kind: 'udp', host: '0.0.0.0', port: 4100 },
    channels: [{ ...{ name: 'bridge', plate: side, side: 'none', axis: 'other', unit: 'mV/V' }, scale: 1, offset: 0 }],
    calibration: [
      { signals: ['bridge'], matrix: [[500]], channels: [{ name: 'Fz', plate: side, side, axis: 'z', unit: 'N' }] },
    ],
  });
  const [left, right] = [plate('left'), plate('right')];
  expect(rigsOf([left, right])).toEqual([[left, right]]);
  expect(rigsOf([left, left])).toEqual([[left], [left]]);
});
