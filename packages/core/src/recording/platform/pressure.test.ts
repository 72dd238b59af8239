import { describe, expect, it } from 'vitest';
import type { Channel, ForcePlatform, Recording } from '../recording.ts';
import { pressureOf } from './pressure.ts';

// A vertical force F pressed at (px, py) of a surface whose centre lies at o from the origin has, about the origin, the moment
// r x F with r = o + (px, py, 0): M = (r_y F_z - r_z F_y, r_z F_x - r_x F_z, r_x F_y - r_y F_x). From the definition of a moment.
const momentOf = ([rx, ry, rz]: readonly number[], [fx, fy, fz]: readonly number[]) => [
  ry! * fz! - rz! * fy!,
  rz! * fx! - rx! * fz!,
  rx! * fy! - ry! * fx!,
];

const origin = [1, -2, -40] as const;
const force = [30, -20, -700] as const;
const point = [55, -80] as const;
const free = 4000; // N.mm
const [mx, my, mz] = momentOf([origin[0] + point[0], origin[1] + point[1], origin[2]], force) as [
  number,
  number,
  number,
];
const six = [...force, mx, my, mz + free];

const channel = (name: string, unit: string, values: readonly number[]): Channel => ({
  ...{ name, unit, raw: Float64Array.from(values), scale: 1, offset: 0 },
});
const units = ['N', 'N', 'N', 'N.mm', 'N.mm', 'N.mm'];

/** One plate, its channels given sample by sample. */
function recordingOf(rows: readonly (readonly number[])[], platform: Partial<ForcePlatform>, of = units): Recording {
  return {
    ...{
      sampleRate: 1000,
      rateOrigin: 'given',
      sampleCount: rows.length,
      gaps: [],
      events: [],
      facts: {},
      notices: [],
    },
    channels: of.map((unit, c) =>
      channel(
        `c${c}`,
        unit,
        rows.map((row) => row[c] as number),
      ),
    ),
    platforms: [
      { name: 'Plate 1', type: 2, channels: of.map((_, c) => c), pressSign: -1, origin, lengthUnit: 'mm', ...platform },
    ],
  };
}

describe('where the force acts', () => {
  it('is found where it was put, with its free moment, in the axes of the plate', () => {
    const [plate] = pressureOf(recordingOf([six], {})).plates;
    expect(plate?.x[0]).toBeCloseTo(55, 9);
    expect(plate?.y[0]).toBeCloseTo(-80, 9);
    expect(plate?.freeMoment[0]).toBeCloseTo(4, 9);
    expect(plate?.force[0]).toBeCloseTo(700, 9);
    expect(plate?.laboratory).toBeUndefined();
  });

  it('is nowhere on an empty plate, and a gap stays a gap', () => {
    const light = six.map((value) => value / 100);
    const recording = { ...recordingOf([six, light, six, six], {}), gaps: [{ start: 2, end: 3 }] };
    const { x, force: newtons } = pressureOf(recording).plates[0]!;
    expect([...x].map((value) => Math.round(value))).toEqual([55, Number.NaN, Number.NaN, 55]);
    expect(newtons[1]).toBeCloseTo(7, 9);
    expect(newtons[2]).toBeNaN();
  });

  it('is the same in metres as in millimetres', () => {
    const metres = six.map((value, i) => (i < 3 ? value : value / 1000));
    const recording = recordingOf([metres], { origin: origin.map((one) => one / 1000) as never, lengthUnit: 'm' }, [
      ...['N', 'N', 'N', 'N.m', 'N.m', 'N.m'],
    ]);
    expect(pressureOf(recording).plates[0]?.x[0]).toBeCloseTo(55, 9);
    // Without a unit a moment is in N times the length unit.
    const silent = { ...recording, channels: recording.channels.map((one) => ({ ...one, unit: '' })) };
    expect(pressureOf(silent).plates[0]?.y[0]).toBeCloseTo(-80, 9);
  });

  it('loses what the empty plate shows', () => {
    const baselines = [1, 2, -16, 900, -700, 50];
    const shown = six.map((value, i) => value + baselines[i]!);
    expect(pressureOf(recordingOf([shown], { baselines })).plates[0]?.x[0]).toBeCloseTo(55, 9);
    expect(pressureOf(recordingOf([shown], {})).plates[0]?.x[0]).not.toBeCloseTo(55, 0);
  });

  it('is given by a plate of type 1, and by a matrix and eight sensors as their types have it', () => {
    const given = recordingOf([[30, -20, -700, 55, -80, free]], { type: 1 }, ['N', 'N', 'N', 'mm', 'mm', 'N.mm']);
    expect(pressureOf(given).plates[0]).toMatchObject({ x: Float64Array.of(55), y: Float64Array.of(-80) });
    // Channels in V, a matrix of ten units a volt on its diagonal.
    const calibration = Array.from({ length: 6 }, (_, r) => Array.from({ length: 6 }, (_, c) => (r === c ? 10 : 0)));
    const volts = recordingOf(
      [six.map((value) => value / 10)],
      { type: 4, calibration },
      units.map(() => 'V'),
    );
    expect(pressureOf(volts).plates[0]?.x[0]).toBeCloseTo(55, 9);
    // Four sensors at (+-a, +-b): -100, -200, -300, -400 N, from the lever rule alone.
    const eight = recordingOf(
      [[0, 0, 0, 0, -100, -200, -300, -400]],
      { type: 3, origin: [120, 200, -50] },
      units.concat(['N', 'N']).map(() => 'N'),
    );
    const plate = pressureOf(eight).plates[0]!;
    // Sensors 1 to 4 stand at (+,+), (-,+), (-,-), (+,-).
    expect(plate.x[0]).toBeCloseTo((120 * (100 - 200 - 300 + 400)) / 1000, 9);
    expect(plate.y[0]).toBeCloseTo((200 * (100 + 200 - 300 - 400)) / 1000, 9);
  });

  it('of two plates lies between them, by their forces, in the laboratory', () => {
    // Two plates of 400 x 600 side by side along X, axes turned so that z points down: x as in the laboratory, y against it.
    const at = (left: number) =>
      [
        [left + 400, 0, 0],
        [left, 0, 0],
        [left, 600, 0],
        [left + 400, 600, 0],
      ] as const;
    const pressed = (fz: number, x: number, y: number) => [0, 0, fz, y * fz, -x * fz, 0];
    const one = recordingOf([pressed(-300, 10, 20), pressed(-300, 10, 20)], { origin: [0, 0, 0], corners: at(0) });
    const two = recordingOf([pressed(-600, 0, 0), pressed(-5, 0, 0)], { origin: [0, 0, 0], corners: at(410) });
    const recording = {
      ...one,
      channels: [...one.channels, ...two.channels],
      platforms: [one.platforms[0]!, { ...two.platforms[0]!, channels: [6, 7, 8, 9, 10, 11] }],
    };
    const { plates, floor, combined } = pressureOf(recording);
    expect(floor).toEqual({ up: 'z', along: ['x', 'y'] });
    expect(plates.map(({ zDown }) => zDown)).toEqual([true, true]);
    expect([plates[0]?.floor?.x[0], plates[0]?.floor?.y[0]]).toEqual([210, 280]);
    expect([plates[1]?.floor?.x[0], plates[1]?.floor?.y[0]]).toEqual([610, 300]);
    expect(combined?.x[0]).toBeCloseTo((300 * 210 + 600 * 610) / 900, 9);
    expect(combined?.y[0]).toBeCloseTo((300 * 280 + 600 * 300) / 900, 9);
    // Nobody on the second one: its noise moves nothing.
    expect(combined?.x[1]).toBe(210);
    expect(plates[0]?.outline).toEqual([
      [200, 300],
      [-200, 300],
      [-200, -300],
      [200, -300],
    ]);
  });

  it.each([
    // Each axis of the laboratory named the next: what was x, y, z is y, z, x, and once more.
    ['y', 2, ['z', 'x']],
    ['x', 1, ['y', 'z']],
  ] as const)('lies on the floor the plates lie in, seen from above, in a laboratory with %s up', (up, by, along) => {
    const turned = ([x, y, z]: readonly number[]) => {
      const place = [x, y, z];
      return [0, 1, 2].map((axis) => place[(axis + 3 - by) % 3]) as unknown as readonly [number, number, number];
    };
    const corners = [
      [400, 0, 12],
      [0, 0, 12],
      [0, 600, 12],
      [400, 600, 12],
    ];
    const pressed = [0, 0, -300, 20 * -300, -10 * -300, 0];
    const at = (list: readonly (readonly number[])[]) =>
      pressureOf(recordingOf([pressed], { origin: [0, 0, 0], corners: list as never }));
    const plain = at(corners);
    const other = at(corners.map(turned));
    expect(other.floor).toEqual({ up, along });
    expect(other.combined?.x[0]).toBeCloseTo(210, 9);
    expect(other.combined?.y[0]).toBeCloseTo(280, 9);
    expect(other.plates[0]?.laboratory?.[up][0]).toBeCloseTo(12, 9);
    expect(other.plates[0]?.floor?.outline).toEqual(plain.plates[0]?.floor?.outline);
    expect(other.plates[0]?.zDown).toBe(true);
    // The other way round its z points up.
    expect(at([...corners].reverse().map(turned)).plates[0]?.zDown).toBe(false);
  });

  it('has no floor where one plate stands upright', () => {
    const upright = [
      [400, 0, 600],
      [0, 0, 600],
      [0, 0, 0],
      [400, 0, 0],
    ] as const;
    const flat = upright.map(([x, , z]) => [x, z, 0] as const);
    const { platforms, ...rest } = recordingOf([six], { corners: flat });
    const two = [platforms[0]!, { ...platforms[0]!, corners: upright }];
    const { plates, floor, combined } = pressureOf({ ...rest, platforms: two });
    expect([floor, combined, plates[0]?.floor]).toEqual([undefined, undefined, undefined]);
    expect(plates[1]?.laboratory?.z[0]).toBeGreaterThan(0);
  });

  it('says which way z points of a plate without corners by the way from its origin to its surface', () => {
    const down = (z: number) => pressureOf(recordingOf([six], { origin: [0, 0, z] })).plates[0]?.zDown;
    expect([down(-40), down(0), down(40)]).toEqual([true, true, false]);
  });

  it('is not told where something for it is missing', () => {
    const lacking: Partial<ForcePlatform>[] = [{ channels: [0, 1, 2] }, { type: 4 }, { type: 7 }];
    for (const platform of lacking) expect(pressureOf(recordingOf([six], platform)).plates).toEqual([]);
    const { origin: _, ...unplaced } = recordingOf([six], {}).platforms[0]!;
    expect(pressureOf({ ...recordingOf([six], {}), platforms: [unplaced] }).plates).toEqual([]);
  });
});
