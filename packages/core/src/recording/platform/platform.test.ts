import { describe, expect, it } from 'vitest';
import { weightedSum } from '../weighted-sum.ts';
import {
  atSurface,
  calibrated,
  centreOfPressure,
  combinedCentre,
  directionToLaboratory,
  fromEightSensors,
  givenCentre,
  placeToLaboratory,
  plateFrame,
  pressSign,
  type Triple,
  verticalShares,
  wrenchOf,
} from './index.ts';

// Expected values: methods/jumps-and-plates.md section 9.2, FP-01 to FP-07, worked by hand from the equations of the C3D
// User Guide (c3d.org); units N, mm, N.mm.
const origin: Triple = [0, 0, -40];
const corners: [Triple, Triple, Triple, Triple] = [
  [200, 300, 0],
  [200, -300, 0],
  [-200, -300, 0],
  [-200, 300, 0],
];

describe('force plate mathematics', () => {
  it('FP-01 moves a type 2 wrench to the surface and finds its centre of pressure', () => {
    const surface = atSurface(wrenchOf([2, 0, -720, 1000, -2000, 0]), origin);
    expect([surface.mx, surface.my, surface.mz]).toEqual([1000, -1920, 0]);
    const centre = centreOfPressure(surface)!;
    expect(centre.x).toBeCloseTo(-2.666667, 5);
    expect(centre.y).toBeCloseTo(-1.388889, 5);
    expect(centre.freeMoment).toBeCloseTo(-2.777778, 5);
  });

  it('FP-02 sees a shear force through the height of the surface', () => {
    const surface = atSurface(wrenchOf([0, 1, -700, 0, 0, 0]), origin);
    expect([surface.mx, surface.my]).toEqual([-40, 0]);
    const centre = centreOfPressure(surface)!;
    expect(centre.x).toBeCloseTo(0, 8);
    expect(centre.y).toBeCloseTo(0.057142857, 8);
  });

  it('FP-03 sums eight sensors of a type 3 plate', () => {
    const eight = [10, 5, -4, -6, -250, -150, -100, -200];
    const surface = fromEightSensors(eight, [120, 200, -54]);
    expect(surface).toEqual({ fx: 15, fy: -10, fz: -700, mx: -19460, my: 24810, mz: -760 });
    const centre = centreOfPressure(surface)!;
    expect(centre.x).toBeCloseTo(35.442857, 5);
    expect(centre.y).toBeCloseTo(27.8, 5);
    expect(centre.freeMoment).toBeCloseTo(11.428571, 5);
  });

  it('FP-04 applies a calibration matrix', () => {
    const matrix = [300, 300, 600, 120000, 120000, 60000].map((d, row) =>
      Array.from({ length: 6 }, (_, column) => (row === column ? d : 0)),
    );
    matrix[2]![3] = 1.5;
    matrix[0]![2] = -2;
    matrix[3]![2] = 50;
    const w = calibrated(matrix, [0.05, -0.02, -1.2, 0.1, -0.05, 0.01]);
    const expected = [17.4, -6, -719.85, 11940, -6000, 600];
    [w.fx, w.fy, w.fz, w.mx, w.my, w.mz].forEach((value, i) => {
      expect(value).toBeCloseTo(expected[i]!, 9);
    });
  });

  it('FP-05 turns a plate into the laboratory', () => {
    const frame = plateFrame(corners)!;
    expect(frame.rotation.map((row) => row.map((v) => v + 0))).toEqual([
      [0, 1, 0],
      [1, 0, 0],
      [0, 0, -1],
    ]);
    expect(directionToLaboratory(frame, [2, 0, -720]).map((v) => v + 0)).toEqual([0, 2, 720]);
    const place = placeToLaboratory(frame, [-2.666667, -1.388889, 0]);
    expect(place[0]).toBeCloseTo(-1.388889, 5);
    expect(place[1]).toBeCloseTo(-2.666667, 5);
    expect(place[2]).toBeCloseTo(0, 12);
  });

  it('FP-06 combines two plates', () => {
    const both = combinedCentre([
      { force: 400, x: -150, y: 0 },
      { force: 300, x: 150, y: 20 },
    ])!;
    expect(both.force).toBe(700);
    expect(both.x).toBeCloseTo(-21.428571, 5);
    expect(both.y).toBeCloseTo(8.571429, 5);
  });

  it('FP-07 passes the centre of a type 1 plate through', () => {
    expect(givenCentre([0, 0, -700, 12, -8, 30])).toEqual({ x: 12, y: -8, freeMoment: 30 });
  });

  it('has no centre of pressure on an unloaded plate, nor a frame from corners that are all zero', () => {
    expect(centreOfPressure(wrenchOf([0, 0, 19.9, 5, 5, 0]))).toBeNull();
    expect(centreOfPressure(wrenchOf([0, 0, Number.NaN, 5, 5, 0]))).toBeNull();
    expect(givenCentre([0, 0, 0, 12, -8, 30])).toBeNull();
    expect(combinedCentre([])).toBeNull();
    expect(
      plateFrame([
        [0, 0, 0],
        [0, 0, 0],
        [0, 0, 0],
        [0, 0, 0],
      ]),
    ).toBeNull();
  });
});

describe('vertical force', () => {
  const channel = (raw: number[], scale = 1, offset = 0) => ({ raw: Float64Array.from(raw), scale, offset });

  it('takes channel 3 of types 1 and 2, the last four of type 3, the third row of a calibration matrix', () => {
    expect(verticalShares(2)).toEqual([{ channel: 2, factor: 1 }]);
    expect(verticalShares(3)!.map((s) => s.channel)).toEqual([4, 5, 6, 7]);
    expect(verticalShares(4, [[1], [2], [3, 4]])).toEqual([
      { channel: 0, factor: 3 },
      { channel: 1, factor: 4 },
    ]);
    expect(verticalShares(4)).toBeNull();
    expect(verticalShares(6)).toBeNull();
  });

  it('scales, weights and adds, and keeps a missing sample missing', () => {
    const force = weightedSum([
      { channel: channel([10, 20, 30], 2, 5), factor: 3 },
      { channel: channel([1, Number.NaN, 1]), factor: 1 },
    ]);
    expect([...force]).toEqual([31, Number.NaN, 151]);
  });

  it('reads the sign from the loaded side', () => {
    expect(pressSign(Float64Array.of(-700, -20, 16))).toBe(-1);
    expect(pressSign(Float64Array.of(700, -12, Number.NaN))).toBe(1);
    expect(pressSign(Float64Array.of(16, 15, 17))).toBe(-1);
    expect(pressSign(new Float64Array(0))).toBe(-1);
    expect(pressSign(new Float64Array(50).fill(700))).toBe(1);
  });

  it('is not misled by a converter that stopped at a rail', () => {
    const pressed = Array.from({ length: 200 }, (_, i) => -600 - (i % 7));
    expect(pressSign(Float64Array.from([...pressed, ...new Array(5000).fill(2878)]))).toBe(-1);
  });
});
