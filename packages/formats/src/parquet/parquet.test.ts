import type { Recording } from '@sthene/core';
import { type FileMetaData, parquetMetadata, parquetReadObjects } from 'hyparquet';
import { parquetWriteBuffer } from 'hyparquet-writer';
import { describe, expect, it } from 'vitest';
import { haveOutsideData, outsideFile, skipWords } from '../../test/fixtures/outside-data.ts';
import { bitsOf, sampleRecording } from '../../test/fixtures/sample-recording.ts';
import { bytesOf } from '../byte-source.ts';
import { readC3d } from '../c3d/read.ts';
import { WriteRefused } from '../write-refused.ts';
import { parquetFormat } from './index.ts';
import { readParquet } from './read.ts';
import { runsAreSound } from './runs.ts';
import { writeParquet } from './write.ts';

async function back(bytes: Uint8Array, options = {}): Promise<Recording> {
  const result = await readParquet(bytesOf(bytes), options);
  if (!result.ok) throw new Error(`${result.error.code}: ${result.error.message}`);
  return result.recordings[0]!.recording;
}

const codeOf = async (bytes: Uint8Array, options = {}): Promise<string> => {
  const result = await readParquet(bytesOf(bytes), options);
  return result.ok ? 'ok' : result.error.code;
};

describe('recordings as Parquet', () => {
  it('returns bit for bit, every storage type, NaN and -0, and every field beside them', async () => {
    const recording = sampleRecording();
    const read = await back(writeParquet(recording));
    expect(read).toEqual(recording);
    expect(bitsOf(read)).toEqual(bitsOf(recording));
  });

  it('keeps the payload of a NaN', async () => {
    const raw = new Float64Array(2);
    new BigUint64Array(raw.buffer)[1] = 0x7ff8_dead_beef_0001n;
    const channels = [{ name: 'f', unit: 'N', raw, scale: 1, offset: 0 }];
    const recording = sampleRecording({ channels, platforms: [], sampleCount: 2, gaps: [{ start: 1, end: 2 }] });
    expect(bitsOf(await back(writeParquet(recording)))).toEqual(bitsOf(recording));
  });

  it('gives the same bytes for the same recording', () => {
    expect(Buffer.compare(writeParquet(sampleRecording()), writeParquet(sampleRecording()))).toBe(0);
  });

  it('holds no sample or one, and long recordings over several pages', async () => {
    for (const sampleCount of [0, 1, 2, 150_000]) {
      const raw = Float64Array.from({ length: sampleCount }, (_, i) => Math.sin(i / 100) * 1000);
      const counts = Int16Array.from({ length: sampleCount }, (_, i) => (i * 7919) % 65536);
      const channels = [
        { name: 'f', unit: 'N', raw, scale: 1, offset: 0 },
        { name: 'c', unit: '', raw: counts, scale: 1, offset: 0 },
      ];
      const recording = sampleRecording({ channels, platforms: [], gaps: [], sampleCount });
      expect(await back(writeParquet(recording))).toEqual(recording);
    }
  });

  it('is a plain table for a reader that knows nothing of us', async () => {
    const bytes = writeParquet(sampleRecording());
    const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.length) as ArrayBuffer;
    const rows = await parquetReadObjects({ file });
    expect(rows).toHaveLength(6);
    expect(rows[0]).toMatchObject({ 'left plate': 784.62, 'Plate 1 vertical force': -700.1, long: 0 });
    expect(rows[1]).toMatchObject({ unsigned: 65535, converter: 32767, long: 4294967295, small: 127 });
    const metadata: FileMetaData = parquetMetadata(bytes);
    const description = JSON.parse(metadata.key_value_metadata!.find((kv) => kv.key === 'sthene.recording')!.value!);
    expect(description.format).toBe('sthene.recording/1');
    expect(description.channels[1]).toEqual({
      name: 'Kraft rechts é',
      unit: 'N.m',
      scale: 0.1,
      offset: 0.5,
      storage: 'float32',
    });
  });

  it('makes force columns differ from channels of the same name', async () => {
    const channels = [{ name: 'Plate 1 vertical force', unit: 'N', raw: new Float64Array(6), scale: 1, offset: 0 }];
    const platforms = [{ ...sampleRecording().platforms[0]!, channels: [] }];
    const recording = sampleRecording({ channels, platforms });
    expect(await back(writeParquet(recording))).toEqual(recording);
  });

  it('refuses what its own description could not carry', async () => {
    const bad: Partial<Recording>[] = [
      { sampleCount: 5, gaps: [] },
      { sampleRate: Number.NaN },
      { channels: [...sampleRecording().channels, sampleRecording().channels[0]!] },
      { gaps: [{ start: 4, end: 9 }] },
      { events: [{ label: 'x', time: Number.POSITIVE_INFINITY }] },
    ];
    for (const more of bad) {
      await expect(parquetFormat.write!(sampleRecording(more))).rejects.toBeInstanceOf(WriteRefused);
    }
  });

  it.skipIf(!haveOutsideData)(`carries a plate file of others unchanged${skipWords}`, async () => {
    for (const path of ['vertical-jumps/Gait.c3d', 'c3d-samples/sample_01/Eb015vi.c3d']) {
      const result = await readC3d(bytesOf(outsideFile(path)));
      if (!result.ok) throw new Error(result.error.code);
      const { recording } = result.recordings[0]!;
      const read = await back(writeParquet(recording));
      expect(read).toEqual(recording);
      expect(bitsOf(read)).toEqual(bitsOf(recording));
    }
  });
});

describe('Parquet files of others', () => {
  const table = (columns: Parameters<typeof parquetWriteBuffer>[0]['columnData'], codec?: 'UNCOMPRESSED') =>
    new Uint8Array(parquetWriteBuffer({ columnData: columns, ...(codec === undefined ? {} : { codec }) }));
  const times = Array.from({ length: 50 }, (_, i) => i / 500);
  const force = times.map((t) => 700 + t);

  it('reads numeric columns on the grid of a time column', async () => {
    const data = force.map((f, i) => (i === 7 ? null : f));
    const names = times.map((_, i) => `row ${i}`);
    const recording = await back(
      table([
        { name: 'time', data: times },
        { name: 'fz', data },
        { name: 'note', data: names },
      ]),
    );
    expect(recording.sampleRate).toBe(500);
    expect(recording.rateOrigin).toBe('time-column-snapped');
    expect(recording.channels.map((c) => c.name)).toEqual(['fz']);
    expect(recording.gaps).toEqual([{ start: 7, end: 8 }]);
    expect([...recording.channels[0]!.raw]).toEqual(data.map((v) => v ?? Number.NaN));
    expect(recording.notices.map((n) => n.code)).toEqual(['parquet-foreign']);
  });

  it('reads dictionary columns, integers of 64 bits, milliseconds and time stamps', async () => {
    const steps = times.map((_, i) => Math.floor(i / 10));
    const stamps = times.map((_, i) => new Date(1_700_000_000_000 + 2 * i));
    const columns = [
      { name: 'when', data: stamps, type: 'TIMESTAMP' as const },
      { name: 'steps', data: steps },
      { name: 'big', data: times.map((_, i) => BigInt(i)) },
    ];
    const recording = await back(table(columns));
    expect(recording.sampleRate).toBe(500);
    expect(recording.channels.map((c) => c.name)).toEqual(['steps', 'big']);
    expect([...recording.channels[0]!.raw]).toEqual(steps);
    const ms = await back(
      table([
        { name: 'time_ms', data: times.map((t) => t * 1000) },
        { name: 'f', data: force },
      ]),
    );
    expect(ms.sampleRate).toBe(500);
  });

  it('asks for a rate when there is no time, and takes one that is given', async () => {
    const bytes = table([{ name: 'fz', data: force }], 'UNCOMPRESSED');
    expect(await codeOf(bytes)).toBe('parquet-no-rate');
    expect(await codeOf(bytes, { timeColumn: 'none' })).toBe('parquet-no-rate');
    expect((await back(bytes, { sampleRate: 100 })).rateOrigin).toBe('given');
    expect(await codeOf(bytes, { sampleRate: -1 })).toBe('parquet-no-rate');
  });

  it('refuses uneven times and tables without numbers', async () => {
    const uneven = times.map((t, i) => (i > 20 ? t + 1 : t));
    expect(
      await codeOf(
        table([
          { name: 'time', data: uneven },
          { name: 'f', data: force },
        ]),
      ),
    ).toBe('parquet-no-rate');
    expect(await codeOf(table([{ name: 'a', data: ['x', 'y'] }]))).toBe('parquet-no-numbers');
    expect(await codeOf(table([{ name: 'time', data: times }]))).toBe('parquet-no-numbers');
  });
});

describe('damaged Parquet files', () => {
  const small = (): Recording =>
    sampleRecording({
      facts: {},
      notices: [],
      channels: sampleRecording().channels.slice(1, 3),
      platforms: [{ name: 'Plate 1', type: 6, channels: [], pressSign: 1, verticalForce: new Float64Array(6) }],
    });

  const foreign = (): Uint8Array => {
    const steps = Array.from({ length: 60 }, (_, i) => (i % 9 === 4 ? null : Math.floor(i / 20)));
    const columnData = [
      { name: 'time', data: steps.map((_, i) => i / 100) },
      { name: 'steps', data: steps, type: 'INT32' as const, encoding: 'RLE_DICTIONARY' as const },
      {
        name: 'delta',
        data: Int32Array.from({ length: 60 }, (_, i) => i * i),
        encoding: 'DELTA_BINARY_PACKED' as const,
      },
    ];
    return new Uint8Array(parquetWriteBuffer({ columnData }));
  };

  it('tells an empty, a short, a foreign and a cut file', async () => {
    expect(await codeOf(new Uint8Array(0))).toBe('parquet-empty');
    expect(await codeOf(new Uint8Array(5))).toBe('parquet-not-parquet');
    const bytes = writeParquet(sampleRecording());
    for (let length = 1; length < bytes.length; length++) {
      expect(['parquet-not-parquet', 'parquet-damaged']).toContain(await codeOf(bytes.subarray(0, length)));
    }
    expect(parquetFormat.detect(bytes.subarray(0, 100), bytes.length, '').match).toBe('yes');
    expect(parquetFormat.detect(Uint8Array.of(1, 2, 3, 4), 4, 'a.parquet').match).toBe('damaged');
    expect(parquetFormat.detect(Uint8Array.of(1, 2, 3, 4), 4, 'a.csv').match).toBe('no');
  });

  it.each([
    ['a recording', () => writeParquet(small())],
    ['a table of others', foreign],
  ])('survives every flipped bit of %s, quickly', async (_, make) => {
    const bytes = make();
    expect(await codeOf(bytes)).toBe('ok');
    const seen = new Map<string, number>();
    const start = process.cpuUsage();
    for (let byte = 0; byte < bytes.length; byte++) {
      for (let bit = 0; bit < 8; bit++) {
        bytes[byte]! ^= 1 << bit;
        const code = await codeOf(bytes);
        seen.set(code, (seen.get(code) ?? 0) + 1);
        bytes[byte]! ^= 1 << bit;
      }
    }
    expect(seen.get('parquet-damaged')).toBeGreaterThan(100);
    expect([...seen.keys()].every((code) => code === 'ok' || code.startsWith('parquet-'))).toBe(true);
    // 8 flips a byte of a few kilobytes: far below a millisecond each unless something loops or allocates by promise.
    expect(process.cpuUsage(start).user / 1000).toBeLessThan(bytes.length * 8 * 5);
  });

  it('does not believe runs that claim more than the column has', () => {
    expect(runsAreSound(Uint8Array.of(0x0c, 5), 3, 6)).toBe(true);
    expect(runsAreSound(Uint8Array.of(0x90, 0x4e, 5), 3, 6)).toBe(false);
    expect(runsAreSound(Uint8Array.of(0xfe, 0xff, 0xff, 0xff, 0x0f, 1), 1, 6)).toBe(false);
    expect(runsAreSound(Uint8Array.of(0x03, 0xff), 1, 6)).toBe(true);
    expect(runsAreSound(Uint8Array.of(0x03), 1, 6)).toBe(false);
    expect(runsAreSound(Uint8Array.of(0x00, 0x00), 1, 6)).toBe(false);
    expect(runsAreSound(Uint8Array.of(0x00, 0x00, 0x0c, 1), 1, 6)).toBe(true);
  });

  it('refuses a description that breaks its own rules', async () => {
    const file = parquetWriteBuffer({
      columnData: [{ name: 'f', data: Float64Array.of(1, 2) }],
      kvMetadata: [{ key: 'sthene.recording', value: '{"format":"sthene.recording/2"}' }],
    });
    expect(await codeOf(new Uint8Array(file))).toBe('parquet-description-unfit');
  });
});
