import { pressureOf } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import {
  type ChannelDescription,
  type Packet,
  parseSourceDescription,
  platformsOfChannels,
  recordingFrom,
  type SourceDescription,
} from '../../src/index.ts';
import { stillClock } from './rig.ts';

const axes = ['x', 'y', 'z', 'mx', 'my', 'mz'] as const;
const surface = {
  origin: [0, 0, -40],
  corners: [
    [400, 0, 0],
    [0, 0, 0],
    [0, 600, 0],
    [400, 600, 0],
  ],
} as const;
const channels: ChannelDescription[] = axes.map((axis) => ({
  ...{
    name: axis,
    plate: 'left',
    side: 'left',
    axis,
    unit: axis.startsWith('m') ? 'N.m' : 'N',
    scale: 0.5,
    offset: 10,
  },
  ...(axis === 'z' ? { surface } : {}),
}));
const description: SourceDescription = {
  ...{ schema: 'sthene.source/1', name: 'Three axes', rate: 1000, channels },
  transport: { kind: 'udp', host: '0.0.0.0', port: 4000 },
  layout: { kind: 'lines', delimiter: ';', fields: axes.map((channel) => ({ role: 'channel', channel })) },
};
const problems = (changed: readonly ChannelDescription[]) => {
  const parsed = parseSourceDescription({ ...description, channels: changed });
  return parsed.ok ? [] : parsed.problems.map(({ code, at }) => `${code} ${at}`);
};

describe('the surface of a plate in a description', () => {
  it('comes through the door as it is', () => {
    expect(parseSourceDescription(JSON.parse(JSON.stringify(description)))).toEqual({ ok: true, description });
  });

  it('stands with the vertical channel of a plate that has all six axes, and nowhere else', () => {
    const moved = channels.map(({ surface: _, ...one }) => (one.axis === 'x' ? { ...one, surface } : one));
    expect(problems(moved)).toEqual(['source-surface-incomplete /channels/0/surface']);
    const other = channels.map((one) => (one.axis === 'mz' ? { ...one, axis: 'other' as const } : one));
    expect(problems(other)).toEqual(['source-surface-incomplete /channels/2/surface']);
    const short = channels.map((one) => (one.axis === 'z' ? { ...one, surface: { origin: [0, 0] as never } } : one));
    expect(problems(short)).toContain('source-value-out-of-range /channels/2/surface/origin');
  });

  it('gives the place of a force from a stream, less what the empty plate showed', () => {
    // 600 N down at (50, -30) mm of the surface, with 60 N of shear along x: moments about the origin 40 mm under it (z down).
    const force = [60, 0, 600];
    const at = [50, -30, -40];
    const moment = [at[1]! * force[2]! - at[2]! * 0, at[2]! * force[0]! - at[0]! * force[2]!, -at[1]! * force[0]!];
    const zeros = { x: 3, y: -2, z: 12, mx: 1.5, my: -0.5, mz: 0.25 };
    const shown = [...force, ...moment.map((one) => one / 1000)].map((value, i) => value + zeros[axes[i]!]);
    const packets: Packet[] = [
      {
        kind: 'header',
        source: 's',
        promisedRate: 1000,
        channels,
        at: stillClock.monotonic(),
        wallClock: stillClock.wall(),
      },
      // physical = (raw - 10) * 0.5
      {
        kind: 'samples',
        first: 0,
        count: 1,
        values: Float64Array.from(shown, (v) => v / 0.5 + 10),
        at: stillClock.monotonic(),
      },
    ];
    const recording = recordingFrom(packets, { start: 0, end: 1 });
    if (!recording.ok) throw new Error(recording.reason);
    const zeroed = { ...recording.value, platforms: platformsOfChannels(channels, zeros) };
    const { plates, combined } = pressureOf(zeroed);
    expect(plates[0]?.x[0]).toBeCloseTo(50, 6);
    expect(plates[0]?.y[0]).toBeCloseTo(-30, 6);
    expect(plates[0]?.force[0]).toBeCloseTo(600, 6);
    // x of the plate runs with X of the floor, y against Y; the middle lies at (200, 300).
    expect(combined?.x[0]).toBeCloseTo(250, 6);
    expect(combined?.y[0]).toBeCloseTo(330, 6);
    // Without the zeros the point is off: a test that could not see them would prove nothing.
    expect(pressureOf(recording.value).plates[0]?.y[0]).not.toBeCloseTo(-30, 0);
  });
});
