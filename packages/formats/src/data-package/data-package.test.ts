import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { bitsOf, sampleRecording } from '../../test/fixtures/sample-recording.ts';
import { bytesOf } from '../byte-source.ts';
import { WriteRefused } from '../write-refused.ts';
import {
  dataPackageFormat,
  type PackageInput,
  packFiles,
  type ResultRow,
  readDataPackage,
  readDataPackageZip,
  unpackFiles,
  writeDataPackage,
  writeDataPackageZip,
} from './index.ts';

const results: ResultRow[] = [
  { trial: 'pull-1', metric: 'peakForce', value: 2412.5, unit: 'N', reason: null },
  { trial: 'pull-1', metric: 'rateOfForceDevelopment', value: null, unit: 'N/s', reason: 'onset-not-found' },
  { trial: 'pull, "two"', metric: 'ratio', value: 0.1 + 0.2, unit: '1', reason: null },
];

const input = (more: Partial<PackageInput> = {}): PackageInput => ({
  info: {
    name: 'fernwater-winter-test',
    title: 'Fernwater rowing club, winter test',
    version: '1.0.0',
    created: '2026-01-14T18:00:00Z',
    licenses: [{ name: 'CC-BY-4.0', path: 'https://creativecommons.org/licenses/by/4.0/' }],
    contributors: [{ title: 'Fernwater', roles: ['creator'] }],
  },
  recordings: [
    { name: 'pull-1', title: 'Pull 1 | left', recording: sampleRecording() },
    { name: 'pull-2', recording: sampleRecording({ sampleRate: 1000 }) },
  ],
  results,
  ...more,
});

const text = (bytes: Uint8Array | undefined): string => new TextDecoder().decode(bytes);
const codeOf = async (files: Map<string, Uint8Array>): Promise<string> => {
  const read = await readDataPackage(files);
  return read.ok ? 'ok' : read.error.code;
};

/** Changes a file and the descriptor's record of it together. */
async function withFile(path: string, change: (text: string) => string): Promise<Map<string, Uint8Array>> {
  const files = await writeDataPackage(input());
  const bytes = new TextEncoder().encode(change(text(files.get(path))));
  files.set(path, bytes);
  const descriptor = JSON.parse(text(files.get('datapackage.json')));
  for (const resource of descriptor.resources) {
    if (resource.path !== path) continue;
    resource.bytes = bytes.length;
    resource.hash = `sha256:${createHash('sha256').update(bytes).digest('hex')}`;
  }
  files.set('datapackage.json', new TextEncoder().encode(JSON.stringify(descriptor)));
  return files;
}

describe('Data Packages', () => {
  it('holds the files the standard wants, with bytes, hashes and units', async () => {
    const files = await writeDataPackage(input());
    expect([...files.keys()]).toEqual([
      'datapackage.json',
      'results.csv',
      'recordings/pull-1.csv',
      'recordings/pull-2.csv',
      'README.md',
    ]);
    const descriptor = JSON.parse(text(files.get('datapackage.json')));
    const schema = JSON.parse(
      readFileSync(new URL('../../../../testdata/data-package/datapackage-musts.schema.json', import.meta.url), 'utf8'),
    );
    const ajv = new Ajv({ strict: false });
    (addFormats as unknown as (ajv: Ajv) => void)(ajv);
    expect(ajv.validate(schema, descriptor)).toBe(true);
    expect(descriptor.$schema).toBe('https://datapackage.org/profiles/2.0/datapackage.json');
    for (const resource of descriptor.resources) {
      const bytes = files.get(resource.path)!;
      expect(resource.bytes).toBe(bytes.length);
      expect(resource.hash).toBe(`sha256:${createHash('sha256').update(bytes).digest('hex')}`);
    }
    const curve = descriptor.resources.find((r: { name: string }) => r.name === 'pull-1');
    expect(curve.schema.fields.slice(0, 3)).toEqual([
      { name: 'time', type: 'number', unit: 's' },
      { name: 'left plate', type: 'number', unit: 'N' },
      { name: 'Kraft rechts é', type: 'number', unit: 'N.m' },
    ]);
    const lines = text(files.get('recordings/pull-1.csv')).split('\r\n');
    expect(lines[0]).toBe(
      'time,left plate,Kraft rechts é,counts,converter,unsigned,long,small,"byte, ""quoted""",Plate 1 vertical force',
    );
    expect(lines[1]!.startsWith('0,784.62,')).toBe(true);
    expect(lines).toHaveLength(8);
    expect(text(files.get('results.csv'))).toBe(
      'trial,metric,value,unit,reason\r\npull-1,peakForce,2412.5,N,\r\n' +
        'pull-1,rateOfForceDevelopment,,N/s,onset-not-found\r\n"pull, ""two""",ratio,0.30000000000000004,1,\r\n',
    );
    expect(text(files.get('README.md'))).toContain('CC-BY-4.0');
  });

  it('returns recordings with identical physical values, and the results', async () => {
    const read = await readDataPackageZip(await writeDataPackageZip(input({ keepFacts: true })));
    if (!read.ok) throw new Error(read.error.message);
    const { recordings, results: rows } = read.contents;
    expect(rows).toEqual(results);
    expect(recordings.map((r) => [r.name, r.title])).toEqual([
      ['pull-1', 'Pull 1 | left'],
      ['pull-2', undefined],
    ]);
    const original = sampleRecording();
    const back = recordings[0]!.recording;
    original.channels.forEach((channel, c) => {
      const expected = Float64Array.from(channel.raw, (value: number) => (value - channel.offset) * channel.scale);
      expect([...back.channels[c]!.raw]).toEqual([...expected]);
      expect(back.channels[c]!.unit).toBe(channel.unit);
    });
    expect(bitsOf({ ...back, channels: [] })).toEqual(bitsOf({ ...original, channels: [] }));
    expect({ ...back, channels: [], platforms: [] }).toEqual({ ...original, channels: [], platforms: [] });
    expect(back.platforms).toEqual(original.platforms);
    expect(Object.is(back.channels[0]!.raw[2], -0)).toBe(true);
  });

  it('leaves out what may name people unless asked to keep it', async () => {
    const files = await writeDataPackage(input());
    expect(text(files.get('datapackage.json'))).not.toContain('Fernwater plate');
    expect(text(files.get('datapackage.json'))).not.toContain('16:42:05');
    const read = await readDataPackage(files);
    expect(read.ok && read.contents.recordings[0]!.recording).toMatchObject({ facts: {}, notices: [] });
  });

  it('gives the same ZIP for the same input, whatever the time zone', async () => {
    const zone = process.env.TZ;
    process.env.TZ = 'Pacific/Auckland';
    const first = await writeDataPackageZip(input());
    process.env.TZ = 'America/Lima';
    const second = await writeDataPackageZip(input());
    if (zone === undefined) delete process.env.TZ;
    else process.env.TZ = zone;
    expect(Buffer.compare(first, second)).toBe(0);
    expect(dataPackageFormat.detect(first.subarray(0, 512), first.length, '').match).toBe('yes');
  });

  it('works as a format: one recording in, one out', async () => {
    const zip = await dataPackageFormat.write!(sampleRecording());
    const read = await dataPackageFormat.read(bytesOf(zip));
    if (!read.ok) throw new Error(read.error.message);
    expect(read.recordings[0]!.label).toBe('');
    expect(read.recordings[0]!.recording.facts).toEqual(sampleRecording().facts);
  });

  it.each<[string, Partial<PackageInput>]>([
    ['a name with capitals', { info: { name: 'Winter' } }],
    ['a recording named like the results', { recordings: [{ name: 'results', recording: sampleRecording() }] }],
    ['a recording named upward', { recordings: [{ name: '..', recording: sampleRecording() }] }],
    ['nothing at all', { recordings: [], results: [] }],
    [
      'a result without value or reason',
      { results: [{ trial: 'a', metric: 'b', value: null, unit: 'N', reason: null }] },
    ],
    ['a result with value and reason', { results: [{ trial: 'a', metric: 'b', value: 1, unit: 'N', reason: 'x' }] }],
    [
      'a result that is not finite',
      { results: [{ trial: 'a', metric: 'b', value: Number.NaN, unit: 'N', reason: null }] },
    ],
    ['a unit that is no UCUM code', { results: [{ trial: 'a', metric: 'b', value: 1, unit: 'Ns', reason: null }] }],
    ['a day where an instant belongs', { info: { name: 'a', created: '2026-01-14' } }],
  ])('refuses %s', async (_, more) => {
    await expect(writeDataPackage(input(more))).rejects.toBeInstanceOf(WriteRefused);
  });

  it('notices files that are missing, changed, or no longer what they were', async () => {
    const gone = await writeDataPackage(input());
    gone.delete('recordings/pull-1.csv');
    expect(await codeOf(gone)).toBe('data-package-file-missing');
    const changed = await writeDataPackage(input());
    changed.get('recordings/pull-1.csv')![80]! ^= 1;
    expect(await codeOf(changed)).toBe('data-package-file-changed');
    expect(await codeOf(new Map())).toBe('data-package-no-descriptor');
    expect(await codeOf(new Map([['datapackage.json', new TextEncoder().encode('{')]]))).toBe('data-package-invalid');
    expect(await codeOf(new Map([['datapackage.json', Uint8Array.of(0xff)]]))).toBe('data-package-damaged');
    const path = 'recordings/pull-1.csv';
    expect(await codeOf(await withFile(path, (t) => t))).toBe('ok');
    expect(await codeOf(await withFile(path, (t) => t.replace('784.62', 'x')))).toBe('data-package-bad-table');
    expect(await codeOf(await withFile(path, (t) => `${t}0\r\n`))).toBe('data-package-bad-table');
    expect(await codeOf(await withFile(path, (t) => t.slice(0, t.length / 2)))).toBe('data-package-bad-table');
    expect(await codeOf(await withFile(path, () => ''))).toBe('data-package-bad-table');
    expect(await codeOf(await withFile('results.csv', (t) => t.replace('onset-not-found', '')))).toBe(
      'data-package-bad-table',
    );
    const claims = (t: string) => t.replaceAll('"sampleCount": 6', '"sampleCount": 4000000000');
    expect(await codeOf(await withFile('datapackage.json', claims))).toBe('data-package-bad-table');
  });
});

describe('hostile ZIP files', () => {
  const codeOfZip = async (zip: Uint8Array, limits?: Parameters<typeof readDataPackageZip>[1]): Promise<string> => {
    const read = await readDataPackageZip(zip, limits);
    return read.ok ? 'ok' : read.error.code;
  };

  it('refuses unsafe paths, many files, many bytes and impossible ratios', async () => {
    for (const path of ['../x', '/etc/x', 'a/../../x', 'C:/x', 'a\\b']) {
      expect(await codeOfZip(zipSync({ [path]: Uint8Array.of(1) }))).toBe('data-package-unsafe-path');
    }
    const zip = await writeDataPackageZip(input());
    expect(await codeOfZip(zip, { entries: 3, bytes: 1e9, ratio: 1100 })).toBe('data-package-too-large');
    expect(await codeOfZip(zip, { entries: 10, bytes: 1000, ratio: 1100 })).toBe('data-package-too-large');
    expect(await codeOfZip(zipSync({ a: new Uint8Array(1e6) }), { entries: 10, bytes: 1e9, ratio: 100 })).toBe(
      'data-package-too-large',
    );
    // A forged size: the central directory claims 1.9 GB for a few bytes.
    const forged = packFiles(new Map([['a', new Uint8Array(100)]]));
    const central = Buffer.from(forged).lastIndexOf(Buffer.from('504b0102', 'hex'));
    new DataView(forged.buffer).setUint32(central + 24, 1_900_000_000, true);
    expect(await codeOfZip(forged)).toBe('data-package-too-large');
  });

  it('survives a cut at every byte and every flipped bit, with the hashes as last guard', async () => {
    const raw = Float64Array.of(700, 701);
    const recording = sampleRecording({
      channels: [{ name: 'f', unit: 'N', raw, scale: 1, offset: 0 }],
      platforms: [],
      sampleCount: 2,
      gaps: [],
      facts: {},
      notices: [],
    });
    const zip = await writeDataPackageZip({ info: { name: 'a' }, recordings: [{ name: 'a', recording }] });
    for (let length = 0; length < zip.length; length++) {
      expect(await codeOfZip(zip.subarray(0, length))).toMatch(/^data-package-/);
    }
    let wrong = 0;
    for (let byte = 0; byte < zip.length; byte++) {
      const bit = 1 << (byte % 8);
      zip[byte]! ^= bit;
      const read = await readDataPackageZip(zip);
      const values = read.ok
        ? [...(read.contents.recordings[0]?.recording.channels[0]?.raw ?? [700, 701])]
        : [700, 701];
      if (values.join() !== '700,701') wrong++;
      zip[byte]! ^= bit;
    }
    expect(wrong).toBe(0);
  });

  it('refuses other ZIP files politely', async () => {
    const other = zipSync({ 'a.txt': Uint8Array.of(65) });
    expect((await dataPackageFormat.read(bytesOf(other))).ok).toBe(false);
    expect(dataPackageFormat.detect(other.subarray(0, 64), other.length, 'a.zip').match).toBe('maybe');
    expect(dataPackageFormat.detect(Uint8Array.of(1, 2), 2, 'a.zip').match).toBe('no');
    const read = await dataPackageFormat.read(bytesOf(Uint8Array.of(1, 2)));
    expect(read).toMatchObject({ ok: false, error: { code: 'data-package-not-zip' } });
    const only = await writeDataPackageZip(input({ recordings: [] }));
    expect(await dataPackageFormat.read(bytesOf(only))).toMatchObject({
      error: { code: 'data-package-no-recordings' },
    });
    expect([...unpackFiles(only).keys()]).toEqual(['datapackage.json', 'results.csv', 'README.md']);
  });
});
