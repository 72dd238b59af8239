import { type ForcePlatform, physicalValues, pressureOf, type Recording } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { haveOutsideData, outsideFile, skipWords } from '../../test/fixtures/outside-data.ts';
import { bytesOf } from '../byte-source.ts';
import { readC3d } from './read.ts';

// Force platforms of files made by others (../shared/data/SOURCE.md), types 2 and 4. The second way to the same points goes by vectors in
// the laboratory: force and moment about the origin give F and the moment M about the middle of the corners, and with n normal to the
// plate the force acts at c + (n x M) / (n . F). None of the core's formulas is used.
type Vector = [number, number, number];
const cross = (a: Vector, b: Vector): Vector => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Vector, b: Vector) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const add = (a: Vector, b: Vector, k = 1): Vector => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
const unit = (a: Vector): Vector => add([0, 0, 0], a, 1 / Math.hypot(...a));

function pointAt(
  recording: Recording,
  platform: ForcePlatform,
  columns: readonly Float64Array[],
  n: number,
): Vector | null {
  const values = columns.map((column, c) => column[n]! - (platform.baselines?.[c] ?? 0));
  const six =
    platform.type === 4 ? platform.calibration!.map((row) => row.reduce((s, f, c) => s + f * values[c]!, 0)) : values;
  const force = six.slice(0, 3) as Vector;
  const toMillimetres = recording.channels[platform.channels[3]!]!.unit === 'N.m' && platform.type === 2 ? 1000 : 1;
  const about = six.slice(3, 6).map((value) => value * toMillimetres) as Vector;
  // Seen from the middle of the surface the origin of the measurement lies at -o.
  const moment = add(about, cross(platform.origin as Vector, force), -1);
  const [c1, c2, c3, c4] = platform.corners as unknown as [Vector, Vector, Vector, Vector];
  const across = unit(add(add(c1, c4), add(c2, c3), -1));
  const normal = unit(cross(across, add(add(c1, c2), add(c3, c4), -1)));
  const axes = [across, cross(normal, across), normal];
  const toLaboratory = (v: Vector): Vector => axes.reduce<Vector>((sum, axis, i) => add(sum, axis, v[i]), [0, 0, 0]);
  const [f, m] = [toLaboratory(force), toLaboratory(moment)];
  const up = dot(normal, f);
  if (Math.abs(up) < 20) return null;
  const middle = add([0, 0, 0], add(add(c1, c2), add(c3, c4)), 0.25);
  return add(middle, cross(normal, m), 1 / up);
}

async function recordingOf(path: string): Promise<Recording> {
  const result = await readC3d(bytesOf(outsideFile(path)));
  if (!result.ok) throw new Error(`${path}: ${result.error.code}`);
  return result.recordings[0]!.recording;
}

const files = [
  'c3d-samples/sample_01/Eb015pi.c3d',
  'c3d-samples/sample_02/pc_real.c3d',
  'c3d-samples/sample_06/newwalk.c3d',
  'c3d-samples/sample_09/PlugInC3D.c3d',
  'c3d-samples/sample_10/TYPE-2a.c3d',
  'c3d-samples/sample_10/TYPE-4a.c3d',
  'c3d-odd/walk.c3d',
  'vertical-jumps/Gait.c3d',
];

describe.skipIf(!haveOutsideData)(`centres of pressure of C3D files made by others${skipWords}`, () => {
  it.each(files)('%s: the same by vectors in the laboratory, within a thousandth of a millimetre', async (path) => {
    const recording = await recordingOf(path);
    const { plates } = pressureOf(recording);
    expect(plates.length).toBeGreaterThan(0);
    expect([2, 4]).toEqual(expect.arrayContaining(recording.platforms.map(({ type }) => type)));
    let compared = 0;
    for (const { platform: index, laboratory, x } of plates) {
      const platform = recording.platforms[index]!;
      if (laboratory === undefined) continue;
      const columns = platform.channels.map((c) => physicalValues(recording.channels[c]!));
      for (let n = 0; n < recording.sampleCount; n += 7) {
        const point = pointAt(recording, platform, columns, n);
        if (point === null) {
          expect(x[n]).toBeNaN();
          continue;
        }
        compared++;
        expect(
          Math.hypot(laboratory.x[n]! - point[0], laboratory.y[n]! - point[1], laboratory.z[n]! - point[2]),
        ).toBeLessThan(1e-3);
      }
    }
    expect(compared).toBeGreaterThan(10);
  });

  it('a foot stands inside its plate: nine of ten loaded samples lie within the corners', async () => {
    for (const path of ['c3d-samples/sample_01/Eb015pi.c3d', 'vertical-jumps/Gait.c3d', 'c3d-odd/walk.c3d']) {
      for (const { outline = [], x, y, force } of pressureOf(await recordingOf(path)).plates) {
        const [right, top] = [Math.max(...outline.map(([a]) => a)), Math.max(...outline.map(([, b]) => b))];
        let [loaded, inside] = [0, 0];
        for (let n = 0; n < x.length; n++) {
          if (force[n]! < 200) continue;
          loaded++;
          if (Math.abs(x[n]!) <= right && Math.abs(y[n]!) <= top) inside++;
        }
        if (loaded > 0) expect(inside / loaded).toBeGreaterThan(0.9);
      }
    }
  });

  it('types 2 and 4 of one recording agree', async () => {
    const [two, four] = await Promise.all(
      ['2a', '4a'].map(async (kind) => pressureOf(await recordingOf(`c3d-samples/sample_10/TYPE-${kind}.c3d`))),
    );
    let [sum, count] = [0, 0];
    two!.plates.forEach((plate, p) => {
      const other = four!.plates[p]!;
      for (let n = 0; n < plate.x.length; n++) {
        if (!(plate.force[n]! > 200)) continue;
        sum += Math.hypot(plate.x[n]! - other.x[n]!, plate.y[n]! - other.y[n]!);
        count++;
      }
    });
    expect(count).toBeGreaterThan(100);
    // The full matrix takes out cross-talk the diagonal one leaves: 5 mm on average at most.
    expect(sum / count).toBeLessThan(5);
  });
});
