import { describe, expect, it } from 'vitest';
import { haveOutsideData, outsideFile, skipWords } from '../../test/fixtures/outside-data.ts';
import { bytesOf } from '../byte-source.ts';
import { readC3d } from './read.ts';
import { writeC3d } from './write.ts';

// Facts others found in these files stand in ../shared/data/SOURCE.md, beside their origin and licence.
const physical = (channel: { raw: ArrayLike<number>; scale: number; offset: number }): number[] =>
  Array.from(channel.raw, (value) => (value - channel.offset) * channel.scale);

async function recordingOf(path: string) {
  const result = await readC3d(bytesOf(outsideFile(path)));
  if (!result.ok) throw new Error(`${path}: ${result.error.code}`);
  return result.recordings[0]!.recording;
}

/** Extremes of the plates' vertical force as the channels give it, no baseline subtracted. */
async function untared(path: string) {
  const recording = await recordingOf(path);
  return recording.platforms.map((plate) => {
    const baseline = Number(recording.facts[`${plate.name}: baseline subtracted, N`] ?? 0);
    return { low: plate.verticalForce!.reduce((a, b) => Math.min(a, b)) + baseline, baseline, sign: plate.pressSign };
  });
}

const sample01 = ['pi', 'pr', 'si', 'sr', 'vi', 'vr'].map((kind) => `c3d-samples/sample_01/Eb015${kind}.c3d`);
const sample02 = ['dec', 'pc', 'sgi'].flatMap((kind) =>
  ['int', 'real'].map((storage) => `c3d-samples/sample_02/${kind}_${storage}.c3d`),
);
const others = [
  'c3d-odd/many_analogs.c3d',
  'c3d-odd/walk.c3d',
  'c3d-samples/sample_06/MACsample.c3d',
  'c3d-samples/sample_06/newwalk.c3d',
  ...['EB015PI', 'TESTBPI', 'TESTCPI', 'TESTDPI'].map((name) => `c3d-samples/sample_08/${name}.c3d`),
  'c3d-samples/sample_09/PlugInC3D.c3d',
  'c3d-samples/sample_09/PolygonC3D.c3d',
  'c3d-samples/sample_10/TYPE-2a.c3d',
  'c3d-samples/sample_10/TYPE-4a.c3d',
  'c3d-samples/sample_13/Dance.c3d',
  'c3d-samples/sample_13/golfswing.c3d',
  'c3d-samples/sample_18/bad_parameter_section.c3d',
  'c3d-samples/sample_21/sample21.c3d',
  'c3d-samples/sample_22/BKINtechnologies.c3d',
  'c3d-samples/sample_24/MotionMonitorC3D.c3d',
  'vertical-jumps/Gait.c3d',
];

describe.skipIf(!haveOutsideData)(`C3D files made by others${skipWords}`, () => {
  it.each([
    ['sample_01', sample01],
    ['sample_02', sample02],
  ])('decodes the six storage variants of %s identically', async (_, paths) => {
    const [first, ...rest] = await Promise.all(paths.map(recordingOf));
    expect(first!.sampleCount).toBeGreaterThan(300);
    for (const other of rest) {
      expect(other.channels.map((c) => c.name)).toEqual(first!.channels.map((c) => c.name));
      other.channels.forEach((channel, i) => {
        expect(physical(channel)).toEqual(physical(first!.channels[i]!));
      });
      other.platforms.forEach((plate, i) => {
        expect(plate.verticalForce).toEqual(first!.platforms[i]!.verticalForce);
      });
    }
  });

  it('reads the four paddings of sample_08 alike, wherever the parameters begin', async () => {
    const [first, ...rest] = await Promise.all(
      ['EB015PI', 'TESTBPI', 'TESTCPI', 'TESTDPI'].map((name) => recordingOf(`c3d-samples/sample_08/${name}.c3d`)),
    );
    for (const other of rest) expect(other).toEqual(first);
  });

  it.each([
    [sample01[0]!, [-838, -836], 1],
    [sample02[0]!, [-815, -830], 1],
    ['c3d-samples/sample_10/TYPE-2a.c3d', [-521.6, -582.8], 0.1],
    ['c3d-samples/sample_10/TYPE-4a.c3d', [-520.7, -583.2], 0.1],
    ['c3d-odd/walk.c3d', [-988, -863, 0, -819], 1],
    ['vertical-jumps/Gait.c3d', [-799, -855], 1],
  ])('%s has the vertical minima that others found', async (path, minima, tolerance) => {
    const found = await untared(path);
    expect(found.map((plate) => plate.sign)).toEqual(minima.map(() => -1));
    found.forEach((plate, i) => {
      expect(Math.abs(plate.low - minima[i]!)).toBeLessThanOrEqual(tolerance);
    });
  });

  it('finds the untared baselines of sample_01 and the offset of +16 N of one plate of Gait.c3d', async () => {
    for (const { baseline } of await untared(sample01[0]!)) {
      expect(baseline).toBeLessThan(-20);
      expect(baseline).toBeGreaterThan(-31);
    }
    expect((await untared('vertical-jumps/Gait.c3d'))[1]!.baseline).toBeCloseTo(16, 0);
  });

  it('reads 922 labels spread over LABELS to LABELS4, and 248 channels at 2000 Hz', async () => {
    const many = await recordingOf('c3d-odd/many_analogs.c3d');
    expect(many.channels).toHaveLength(922);
    expect(many.channels[255]!.name).toBe('LeftThigh_Ax');
    expect(many.channels.every((c) => !c.name.startsWith('channel '))).toBe(true);
    const walk = await recordingOf('c3d-odd/walk.c3d');
    expect([walk.channels.length, walk.sampleRate, walk.sampleCount]).toEqual([248, 2000, 4420]);
    expect(walk.events).toHaveLength(8);
    expect(walk.events.every((e) => e.time > 0 && e.time < 2.21)).toBe(true);
  });

  it('refuses files without analog channels, with the reason', async () => {
    for (const path of ['c3d-odd/duplicate_labels.c3d', 'c3d-samples/sample_20/phasespace_sample.c3d']) {
      const result = await readC3d(bytesOf(outsideFile(path)));
      expect(result.ok ? '' : result.error.code).toBe('c3d-no-analog');
    }
  });

  it('tells that frames are missing in sample_13 and that the converter stopped in sample_21', async () => {
    const codes = async (path: string) => (await recordingOf(path)).notices.map((n) => n.code);
    expect(await codes('c3d-samples/sample_13/Dance.c3d')).toContain('c3d-truncated');
    expect(await codes('c3d-samples/sample_21/sample21.c3d')).toContain('c3d-zero-tail');
    expect(await codes('c3d-samples/sample_18/bad_parameter_section.c3d')).toContain('c3d-parameters-damaged');
  });

  it.each([...sample01, ...sample02, ...others])('writes %s and reads back the same recording', async (path) => {
    const recording = await recordingOf(path);
    const written = writeC3d(recording);
    if (!written.ok) throw new Error(written.error.code);
    const again = await readC3d(bytesOf(written.bytes));
    if (!again.ok) throw new Error(again.error.code);
    const back = again.recordings[0]!.recording;
    if (written.notices.some((n) => n.code === 'c3d-facts-left-out')) {
      expect({ ...back, facts: {}, notices: [] }).toEqual({ ...recording, facts: {}, notices: [] });
    } else expect(back).toEqual(recording);
    expect(written.notices.filter((n) => n.code === 'c3d-precision')).toEqual([]);
  });
});
