import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import type { Packet, StreamChannel } from '../../packets/packet.ts';
import type { CalibrationDescription } from '../description.ts';
import { calibrated } from './calibrated.ts';

// Six channels with cross-talk. The product was made by numpy 2.4.6, not by this program:
//   rng = np.random.default_rng(12)
//   matrix = np.round(rng.normal(0, 2, (6, 6)) + 500 * np.eye(6), 3)
//   offset = rng.integers(-900, 900, 6); scale = np.array([1e-3, 1e-3, 2e-3, 1e-3, 1e-3, 5e-4])
//   raw = rng.integers(-20000, 20000, (4, 6)); made = (matrix @ ((raw - offset) * scale).T).T
const matrix = [
  [499.986, 2.092, 1.483, 1.448, 3.238, -2.411],
  [-1.254, 497.359, -0.216, 1.998, -0.044, 0.992],
  [-3.822, 0.294, 498.186, 3.551, 1.774, 1.899],
  [-0.116, 1.226, 1.316, 499.311, -0.995, -0.23],
  [-1.211, -1.189, -0.567, -1.457, 501.533, -3.192],
  [1.647, -1.251, -1.092, -2.702, -0.288, 499.505],
];
const offset = [494, -864, -445, 802, 114, -657];
const scale = [1e-3, 1e-3, 2e-3, 1e-3, 1e-3, 5e-4];
const raw = [
  [-6286, 4004, -19890, -3240, -9918, -7045],
  [5264, -13191, 16590, 11215, 6026, 16580],
  [-16632, 9154, 15472, 4011, 1802, 8458],
  [8945, 1443, 1359, 2330, 9021, 16243],
];
const made = [
  [-3468.030792, 2427.2430160000004, -19385.324504, -2051.9231939999995, -4990.821456000001, -1556.396918],
  [2423.1128225, -6115.190494999999, 17015.1729245, 5220.630646, 2911.943746, 4261.2180875],
  [-8495.4685145, 5008.000672, 15950.6983515, 1655.723442, 818.142957, 2191.8354075],
  [4246.239053999999, 1147.0737669999999, 1803.1071200000001, 758.737437, 4422.932815, 4221.216181999999],
];

const axes = ['x', 'y', 'z', 'mx', 'my', 'mz'] as const;
const signalNames = axes.map((axis) => `raw ${axis}`);
const crossTalk: CalibrationDescription = {
  signals: signalNames,
  matrix,
  channels: axes.map((axis) => ({
    name: axis,
    plate: 'plate',
    side: 'none',
    axis,
    unit: axis.startsWith('m') ? 'N.m' : 'N',
  })),
};

const signal = (name: string, more: Partial<StreamChannel> = {}): StreamChannel => ({
  ...{ name, plate: 'plate', side: 'none', axis: 'other', unit: 'mV/V', scale: 1, offset: 0 },
  ...more,
});
const at = 0n as MonotonicNanoseconds;
const header = (channels: readonly StreamChannel[]): Packet => ({
  ...{ kind: 'header', source: 'plate', promisedRate: 1000, channels, at },
  wallClock: '2026-03-28T09:00:00Z' as UtcInstant,
});
/** Rows of samples as a packet. */
const samples = (rows: readonly (readonly number[])[], first = 0): Packet => {
  const [channels = 0, count] = [rows[0]?.length, rows.length];
  const values = Float64Array.from({ length: channels * count }, (_, i) => rows[i % count]![Math.floor(i / count)]!);
  return { kind: 'samples', first, count, values, at };
};
/** What comes out behind a calibration. */
function through(calibration: readonly CalibrationDescription[] | undefined, packets: readonly Packet[]): Packet[] {
  const out: Packet[] = [];
  const hand = calibrated(calibration, (packet) => out.push(packet));
  for (const packet of packets) hand(packet);
  return out;
}
/** Rows of a packet of samples. */
const rowsOf = (packet: Packet | undefined): number[][] => {
  if (packet?.kind !== 'samples') throw new Error('no samples');
  const { count, values } = packet;
  return Array.from({ length: count }, (_, i) =>
    Array.from({ length: values.length / count }, (__, c) => values[c * count + i]!),
  );
};

describe('channels made by a calibration matrix', () => {
  it('are the product that numpy gives, and stand behind the signals as they came', () => {
    const came = signalNames.map((name, i) => signal(name, { scale: scale[i]!, offset: offset[i]! }));
    const [opened, packet] = through([crossTalk], [header(came), samples(raw, 40)]);
    expect(opened?.kind === 'header' && opened.channels.slice(0, 6)).toEqual(came);
    expect(packet).toMatchObject({ kind: 'samples', first: 40, count: 4 });
    rowsOf(packet).forEach((row, i) => {
      expect(row.slice(0, 6)).toEqual(raw[i]);
      row.slice(6).forEach((value, c) => {
        const wanted = made[i]![c]!;
        expect(Math.abs(value - wanted) / Math.abs(wanted)).toBeLessThan(1e-12);
      });
    });
  });

  it('name what they are made of, without signals that have no share', () => {
    const two: CalibrationDescription = {
      signals: ['a', 'b'],
      matrix: [
        [2, -3],
        [0, 5],
      ],
      channels: [
        { name: 'Fz', plate: 'left', side: 'left', axis: 'z', unit: 'N' },
        { name: 'My', plate: 'left', side: 'left', axis: 'my', unit: 'N.m' },
      ],
    };
    const came = [signal('b'), signal('temperature'), signal('a')];
    const [opened, packet] = through([two], [header(came), samples([[10, 21, 100]])]);
    expect(opened?.kind === 'header' && opened.channels.slice(3)).toEqual([
      {
        ...{ name: 'Fz', plate: 'left', side: 'left', axis: 'z', unit: 'N', scale: 1, offset: 0 },
        madeOf: [
          { channel: 'a', factor: 2 },
          { channel: 'b', factor: -3 },
        ],
      },
      {
        ...{ name: 'My', plate: 'left', side: 'left', axis: 'my', unit: 'N.m', scale: 1, offset: 0 },
        madeOf: [{ channel: 'b', factor: 5 }],
      },
    ]);
    // By hand: 2 * 100 - 3 * 10 = 170, 5 * 10 = 50; signals are found by name, wherever they stand.
    expect(rowsOf(packet)).toEqual([[10, 21, 100, 170, 50]]);
  });

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 1e308])(
    'are missing where a signal is %d, and only there',
    (bad) => {
      const sum: CalibrationDescription = {
        signals: ['a', 'b'],
        matrix: [[10, 10]],
        channels: [{ name: 'Fz', plate: 'p', side: 'none', axis: 'z', unit: 'N' }],
      };
      const rows = [
        [1, 2],
        [bad, 2],
        [3, 4],
      ];
      const [, packet] = through([sum], [header([signal('a'), signal('b')]), samples(rows)]);
      expect(rowsOf(packet)).toEqual([
        [1, 2, 30],
        [bad, 2, Number.NaN],
        [3, 4, 70],
      ]);
    },
  );

  it('come of several matrices one after another, and gaps pass as they are', () => {
    const one = (name: string, from: string, factor: number): CalibrationDescription => ({
      signals: [from],
      matrix: [[factor]],
      channels: [{ name, plate: name, side: 'none', axis: 'z', unit: 'N' }],
    });
    const gap: Packet = { kind: 'gap', first: 1, count: 3, cause: 'lost', at };
    const [opened, packet, passed] = through(
      [one('left', 'b', 4), one('right', 'a', -1)],
      [header([signal('a'), signal('b')]), samples([[7, 8]]), gap],
    );
    expect(opened?.kind === 'header' && opened.channels.map(({ name }) => name)).toEqual(['a', 'b', 'left', 'right']);
    expect(rowsOf(packet)).toEqual([[7, 8, 32, -7]]);
    expect(passed).toBe(gap);
  });

  it('are none without a calibration: packets pass untouched', () => {
    const packets = [header([signal('a')]), samples([[1]])];
    const out = through(undefined, packets);
    expect(out[0]).toBe(packets[0]);
    expect(out[1]).toBe(packets[1]);
  });

  it('cannot be made of a signal that does not come', () => {
    expect(() => through([crossTalk], [header([signal('raw x')])])).toThrow('raw y');
  });
});
