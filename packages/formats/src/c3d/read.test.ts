import { describe, expect, it } from 'vitest';
import { sha256, smallFile, smallFileHash } from '../../test/fixtures/small-c3d.ts';
import { bytesOf } from '../byte-source.ts';
import { detectC3d } from './detect.ts';
import { readHeader } from './header.ts';
import { numberReader, viewOf } from './numbers.ts';
import { readC3d } from './read.ts';
import { groupBytes } from './records.ts';

const read = (bytes: Uint8Array, options = {}) => readC3d(bytesOf(bytes), options);

async function recordingOf(bytes: Uint8Array) {
  const result = await read(bytes);
  if (!result.ok) throw new Error(result.error.code);
  return result.recordings[0]!.recording;
}

/** Offsets of values within the small file, from its record map (CD-01). */
const at = {
  zero: 972 + 11,

  channels: 1080 + 15,
  corners: 988 + 14,
  type: 958 + 11,
  offsets: 820 + 13,
};

describe('the small C3D file', () => {
  it('CD-01 has the published bytes', () => {
    expect(sha256(smallFile())).toBe(smallFileHash);
  });

  it('CD-01 gives channels, scaling, platform and event', async () => {
    const recording = await recordingOf(smallFile());
    expect(recording.sampleRate).toBe(1000);
    expect(recording.sampleCount).toBe(6);
    expect(recording.channels.map((c) => c.name)).toEqual(['FX1', 'FY1', 'FZ1', 'MX1', 'MY1', 'MZ1']);
    expect(recording.channels.map((c) => c.unit)).toEqual(['N', 'N', 'N', 'N.mm', 'N.mm', 'N.mm']);
    expect(recording.channels.map((c) => c.scale)).toEqual([0.5, 0.5, 2, 100, 100, 50]);
    expect(recording.channels.map((c) => c.offset)).toEqual([0, 0, 10, 0, 0, 0]);
    expect([...recording.channels[2]!.raw]).toEqual([-340, -340, -350, -360, 10, 10]);
    expect(recording.channels[2]!.raw).toBeInstanceOf(Float32Array);
    const plate = recording.platforms[0]!;
    expect([...plate.verticalForce!]).toEqual([-700, -700, -720, -740, 0, 0]);
    expect(plate.pressSign).toBe(-1);
    expect(plate.channels).toEqual([0, 1, 2, 3, 4, 5]);
    expect(plate.origin).toEqual([0, 0, -40]);
    expect(plate.corners).toEqual([
      [200, 300, 0],
      [200, -300, 0],
      [-200, -300, 0],
      [-200, 300, 0],
    ]);
    expect(recording.events).toEqual([{ label: 'TOFF', time: Math.fround(0.004) }]);
    expect(recording.notices).toEqual([]);
  });

  it('CD-02 reads the header words', () => {
    const bytes = smallFile();
    expect(viewOf(bytes).getUint16(0, true)).toBe(0x5002);
    const header = readHeader(bytes.subarray(0, 512), numberReader(viewOf(bytes), 'intel'));
    expect(header).toMatchObject({
      points: 0,
      analogPerFrame: 12,
      firstFrame: 1,
      lastFrame: 3,
      scale: -1,
      dataStart: 4,
      samplesPerFrame: 2,
      frameRate: 500,
    });
  });

  it('CD-03 finds channel FZ, frame 1, sample 0 at byte 1592', async () => {
    const bytes = smallFile();
    expect(Buffer.from(bytes.subarray(1592, 1596)).toString('hex')).toBe('0000afc3');
    viewOf(bytes).setFloat32(1592, 1234, true);
    expect((await recordingOf(bytes)).channels[2]!.raw[2]).toBe(1234);
  });

  it('CD-05 lays out a group record', () => {
    expect(Buffer.from(groupBytes('POINT', 1)).toString('hex')).toBe('05ff504f494e54030000');
  });

  it('CD-09 gives the frames that are there when the file is cut', async () => {
    const recording = await recordingOf(smallFile().subarray(0, 1600));
    expect(recording.sampleCount).toBe(2);
    expect([...recording.channels[2]!.raw]).toEqual([-340, -340]);
    expect(recording.notices.map((n) => n.code)).toContain('c3d-truncated');
    expect(recording.notices.find((n) => n.code === 'c3d-truncated')!.message).toContain(
      'promises 3 frames but holds 1',
    );
  });

  it('CD-10 refuses an unknown processor', async () => {
    const bytes = smallFile();
    bytes[512 + 3] = 0x57;
    const result = await read(bytes);
    expect(result).toMatchObject({ ok: false, error: { code: 'c3d-unknown-processor', at: { byte: 515 } } });
    expect(result.ok ? '' : result.error.message).toContain('unknown processor type');
    expect(detectC3d(bytes, bytes.length, 'x.c3d').match).toBe('damaged');
  });
});

describe('traps of C3D files', () => {
  it('subtracts a valid baseline range and no other', async () => {
    const zeroed = async (first: number, last: number) => {
      const bytes = smallFile();
      viewOf(bytes).setInt16(at.zero, first, true);
      viewOf(bytes).setInt16(at.zero + 2, last, true);
      // Frame 2 (samples 4 and 5) stands empty; let it read 13 and 17, that is 6 N and 14 N.
      viewOf(bytes).setFloat32(1536 + 2 * 48 + 8, 13, true);
      viewOf(bytes).setFloat32(1536 + 2 * 48 + 32, 17, true);
      return recordingOf(bytes);
    };
    for (const [first, last] of [
      [0, 0],
      [1, 0],
      [3, 2],
      [2, 9],
      [-3, -1],
    ] as const) {
      const recording = await zeroed(first, last);
      expect([...recording.platforms[0]!.verticalForce!].slice(4)).toEqual([6, 14]);
    }
    const recording = await zeroed(3, 3);
    expect([...recording.platforms[0]!.verticalForce!]).toEqual([-710, -710, -730, -750, -4, 4]);
    expect(recording.notices.map((n) => n.code)).toEqual(['c3d-zero-subtracted']);
    // Nobody tares a plate with a person on it: frames 1 to 2 read about -715 N.
    const loaded = await zeroed(1, 2);
    expect(loaded.platforms[0]!.verticalForce![0]).toBe(-700);
    expect(loaded.notices.map((n) => n.code)).toEqual(['c3d-zero-loaded']);
  });

  it('takes what the empty plate shows off forces and moments, not off the places a plate of type 1 gives', async () => {
    const bytes = smallFile();
    viewOf(bytes).setInt16(at.zero, 3, true);
    viewOf(bytes).setInt16(at.zero + 2, 3, true);
    // Frame 3 (samples 4 and 5) stands empty: 4 N, a place of 500 and 700 mm that is no place, a moment of 50 N.mm.
    for (const offset of [0, 24])
      for (const [c, raw] of [2, 4, 12, 5, 7, 1].entries())
        viewOf(bytes).setFloat32(1536 + 2 * 48 + offset + 4 * c, raw, true);
    const baselines = async (type: number) => {
      viewOf(bytes).setInt16(at.type, type, true);
      return (await recordingOf(bytes)).platforms[0]!.baselines;
    };
    expect(await baselines(2)).toEqual([1, 2, 4, 500, 700, 50]);
    expect(await baselines(1)).toEqual([1, 2, 4, 0, 0, 50]);
  });

  it('keeps a plate whose channels point past the end, without channels', async () => {
    const bytes = smallFile();
    viewOf(bytes).setInt16(at.channels + 10, 7, true);
    const recording = await recordingOf(bytes);
    expect(recording.platforms[0]!.channels).toEqual([]);
    expect([...recording.platforms[0]!.verticalForce!].slice(0, 2)).toEqual([-700, -700]);
    expect(recording.notices.map((n) => n.code)).toEqual(['c3d-plate-channels']);
    viewOf(bytes).setInt16(at.channels + 4, 0, true);
    expect((await recordingOf(bytes)).platforms[0]!.verticalForce).toBeUndefined();
  });

  it('says that corners are unknown when all are zero, and that a type is not computed', async () => {
    const bytes = smallFile();
    bytes.fill(0, at.corners + 2, at.corners + 2 + 48);
    expect((await recordingOf(bytes)).platforms[0]!.corners).toBeUndefined();
    viewOf(bytes).setInt16(at.type, 6, true);
    const recording = await recordingOf(bytes);
    expect(recording.platforms[0]!.verticalForce).toBeUndefined();
    expect(recording.platforms[0]!.type).toBe(6);
    expect(recording.notices.map((n) => n.code)).toEqual(['c3d-plate-type', 'c3d-plate-corners']);
    viewOf(bytes).setInt16(at.type, 4, true);
    expect((await recordingOf(bytes)).notices.map((n) => n.code)).toContain('c3d-plate-calibration');
  });

  it('derives a missing analog rate from the frame rate, and asks when both are missing', async () => {
    const bytes = smallFile();
    viewOf(bytes).setFloat32(878 + 10, 0, true);
    const derived = await recordingOf(bytes);
    expect(derived.sampleRate).toBe(1000);
    expect(derived.notices.map((n) => n.code)).toEqual(['c3d-rate-derived']);
    viewOf(bytes).setFloat32(555 + 10, 0, true);
    viewOf(bytes).setFloat32(20, 0, true);
    expect(await read(bytes)).toMatchObject({ ok: false, error: { code: 'c3d-no-rate' } });
    const given = await read(bytes, { sampleRate: 500 });
    expect(given.ok && given.recordings[0]!.recording.rateOrigin).toBe('given');
    expect(given.ok && given.recordings[0]!.recording.sampleRate).toBe(500);
  });

  it('refuses what is no C3D file', async () => {
    expect(await read(new Uint8Array(0))).toMatchObject({ ok: false, error: { code: 'c3d-empty' } });
    expect(await read(smallFile().subarray(0, 511))).toMatchObject({ ok: false, error: { code: 'c3d-too-short' } });
    const bytes = smallFile();
    bytes[1] = 0x51;
    expect(await read(bytes)).toMatchObject({ ok: false, error: { code: 'c3d-not-c3d', at: { byte: 1 } } });
    expect(detectC3d(bytes, 2048, 'a.txt').match).toBe('no');
    expect(detectC3d(smallFile(), 2048, '').match).toBe('yes');
    expect(detectC3d(smallFile().subarray(0, 100), 2048, 'a.c3d').match).toBe('yes');
    expect(detectC3d(smallFile().subarray(0, 100), 2048, 'a').match).toBe('maybe');
    expect(detectC3d(new Uint8Array(0), 0, 'a.c3d').match).toBe('damaged');
  });
});
