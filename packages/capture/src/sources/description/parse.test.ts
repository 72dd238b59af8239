import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseSourceDescription } from './parse.ts';
import { sourceNextStep, sourceProblems } from './problem.ts';

const good = {
  schema: 'sthene.source/1',
  name: 'Boathouse plates',
  transport: { kind: 'serial', path: '/dev/ttyUSB0', baudRate: 921600, serialNumber: 'FW-0007' },
  layout: {
    kind: 'frames',
    sync: 'A5 5A',
    endian: 'little',
    head: [{ role: 'counter', type: 'u16', wrapsAt: 65535 }],
    sample: [
      { role: 'channel', channel: 'left', type: 'i24' },
      { role: 'channel', channel: 'right', type: 'i24' },
    ],
    samples: 10,
    checksum: { kind: 'crc16', polynomial: 4129, initial: 65535, reflected: false, finalXor: 0 },
  },
  channels: ['left', 'right'].map((name) => ({
    name,
    plate: name,
    side: name,
    axis: 'z',
    unit: 'N',
    scale: 0.05,
    offset: 0,
  })),
  rate: 1000,
};

/** The same plates, whose forces are made of what comes. */
const matrixed = {
  ...good,
  channels: good.channels.map((channel) => ({ ...channel, axis: 'other', unit: 'mV/V' })),
  calibration: [
    {
      signals: ['left', 'right'],
      matrix: [
        [400.5, -0.5],
        [0, 398],
      ],
      channels: ['Fz left', 'Fz right'].map((name, i) => ({
        name,
        plate: good.channels[i]!.plate,
        side: good.channels[i]!.side,
        axis: 'z',
        unit: 'N',
      })),
    },
  ],
};

type Path = readonly (string | number)[];
/** A copy with one value changed; `undefined` takes it away. */
function changed(path: Path, value: unknown, from: unknown = good): unknown {
  const copy = structuredClone(from) as never;
  let at: Record<string | number, unknown> = copy;
  for (const key of path.slice(0, -1)) at = at[key] as Record<string | number, unknown>;
  const last = path.at(-1)!;
  if (value === undefined) delete at[last];
  else at[last] = value;
  return copy;
}
const codes = (value: unknown) => {
  const parsed = parseSourceDescription(value);
  return parsed.ok ? [] : parsed.problems.map(({ code, at }) => `${code} ${at}`);
};

describe('the door for source descriptions', () => {
  it('lets a good description through as it is', () => {
    expect(parseSourceDescription(good)).toEqual({ ok: true, description: good });
    for (const transport of [
      { kind: 'tcp', mode: 'listen', host: '0.0.0.0', port: 0, startBytes: '73 74' },
      { kind: 'udp', host: '127.0.0.1', port: 4100 },
    ]) {
      expect(codes({ ...good, transport })).toEqual([]);
    }
    const { layout: _, ...without } = good;
    for (const transport of [
      { kind: 'folder', path: '/data/in', pattern: '*.csv' },
      { kind: 'replay', file: 'day.parquet', speed: 0 },
      { kind: 'virtual', script: 'fernwater-three', seed: 7 },
    ]) {
      expect(codes({ ...without, transport, channels: [] })).toEqual([]);
    }
  });

  const refused: [Path, unknown, string][] = [
    [['schema'], 'sthene.source/2', 'source-schema-unknown /schema'],
    [['name'], undefined, 'source-field-missing /name'],
    [['name'], 7, 'source-type-wrong /name'],
    [['name'], '', 'source-value-out-of-range /name'],
    [['colour'], 'red', 'source-field-unknown /colour'],
    [['rate'], Number.NaN, 'source-type-wrong /rate'],
    [['rate'], Number.POSITIVE_INFINITY, 'source-value-out-of-range /rate'],
    [['transport', 'kind'], 'smoke', 'source-choice-unknown /transport/kind'],
    [['transport', 'baudRate'], 9600.5, 'source-value-out-of-range /transport/baudRate'],
    [['transport', 'startBytes'], 'a5 5', 'source-hex-invalid /transport/startBytes'],
    [['transport'], 'COM3', 'source-not-an-object /transport'],
    [['layout'], undefined, 'source-layout-missing /layout'],
    [['layout', 'sync'], '', 'source-hex-invalid /layout/sync'],
    [['layout', 'sync'], 'xy', 'source-hex-invalid /layout/sync'],
    [['layout', 'samples'], 0, 'source-value-out-of-range /layout/samples'],
    [['layout', 'samples'], 4096, 'source-frame-too-long /layout'],
    [['layout', 'head', 0, 'type'], 'f32', 'source-choice-unknown /layout/head/0/type'],
    [['layout', 'sample', 1, 'role'], 'counter', 'source-field-unknown /layout/sample/1/channel'],
    [['layout', 'sample', 1, 'channel'], 'left', 'source-channel-repeated /layout/sample/1/channel'],
    [['layout', 'sample', 1, 'channel'], 'other', 'source-channel-unknown /layout/sample/1/channel'],
    [['layout', 'sample', 1], { role: 'ignore', type: 'i24' }, 'source-channel-unread /channels/1'],
    [['layout', 'sample', 1], { role: 'counter', type: 'u24' }, 'source-counter-repeated /layout/sample/1'],
    [['layout', 'checksum', 'polynomial'], 65536, 'source-value-out-of-range /layout/checksum/polynomial'],
    [['channels', 1, 'name'], 'left', 'source-channel-repeated /channels/1/name'],
    [['channels', 0, 'scale'], 0, 'source-value-out-of-range /channels/0/scale'],
    [['channels', 0, 'rawRange'], [5, 5], 'source-value-out-of-range /channels/0/rawRange'],
    [
      ['layout'],
      { kind: 'lines', delimiter: ',', decimal: ',', fields: [] },
      'source-sign-ambiguous /layout/delimiter',
    ],
  ];

  it.each(refused)('refuses %j = %j', (path, value, expected) => {
    expect(codes(changed(path, value))).toContain(expected);
  });

  it('lets a calibration through as it is, for bytes and for files', () => {
    expect(parseSourceDescription(matrixed)).toEqual({ ok: true, description: matrixed });
    const { layout: _, ...without } = matrixed;
    expect(codes({ ...without, transport: { kind: 'folder', path: '/data/in' } })).toEqual([]);
    expect(schema(matrixed)).toBe(true);
    const example: unknown = JSON.parse(reference('../examples/matrix-plate.source.json'));
    expect([codes(example), schema(example)]).toEqual([[], true]);
  });

  const row = [1, 2];
  const uncalibrated: [Path, unknown, readonly string[]][] = [
    [['calibration'], {}, ['source-type-wrong /calibration']],
    [['calibration'], [], ['source-value-out-of-range /calibration']],
    [['calibration', 0], 'matrix', ['source-not-an-object /calibration/0']],
    [['calibration', 0, 'offset'], [0, 0], ['source-field-unknown /calibration/0/offset']],
    [['calibration', 0, 'signals'], undefined, ['source-field-missing /calibration/0/signals']],
    [['calibration', 0, 'signals', 1], 7, ['source-type-wrong /calibration/0/signals/1']],
    [['calibration', 0, 'signals', 1], 'rear', ['source-signal-unknown /calibration/0/signals/1']],
    // What another matrix makes is no signal that comes.
    [['calibration', 0, 'signals', 1], 'Fz left', ['source-signal-unknown /calibration/0/signals/1']],
    [['calibration', 0, 'signals', 1], 'left', ['source-signal-repeated /calibration/0/signals/1']],
    [['channels', 1, 'axis'], 'z', ['source-signal-counted /channels/1/axis']],
    [['channels', 1, 'axis'], 'x', ['source-signal-counted /channels/1/axis']],
    [['calibration', 0, 'matrix'], [row], ['source-matrix-size /calibration/0/matrix']],
    [['calibration', 0, 'matrix'], [row, row, row], ['source-matrix-size /calibration/0/matrix']],
    [['calibration', 0, 'matrix', 1], [1], ['source-matrix-size /calibration/0/matrix/1']],
    [['calibration', 0, 'matrix', 1], [1, 2, 3], ['source-matrix-size /calibration/0/matrix/1']],
    [['calibration', 0, 'matrix', 1], 5, ['source-type-wrong /calibration/0/matrix/1']],
    [['calibration', 0, 'matrix', 1], [0, 0], ['source-matrix-zero /calibration/0/matrix/1']],
    [['calibration', 0, 'matrix', 1, 0], '1,5', ['source-type-wrong /calibration/0/matrix/1/0']],
    [['calibration', 0, 'matrix', 1, 0], null, ['source-type-wrong /calibration/0/matrix/1/0']],
    [['calibration', 0, 'matrix', 1, 0], Number.NaN, ['source-type-wrong /calibration/0/matrix/1/0']],
    [
      ['calibration', 0, 'matrix', 1, 0],
      Number.POSITIVE_INFINITY,
      ['source-value-out-of-range /calibration/0/matrix/1/0'],
    ],
    [['calibration', 0, 'channels', 1, 'name'], 'Fz left', ['source-channel-repeated /calibration/0/channels/1/name']],
    [['calibration', 0, 'channels', 1, 'name'], 'left', ['source-channel-repeated /calibration/0/channels/1/name']],
    [['calibration', 0, 'channels', 1, 'axis'], 'up', ['source-choice-unknown /calibration/0/channels/1/axis']],
    [['calibration', 0, 'channels', 1, 'scale'], 2, ['source-field-unknown /calibration/0/channels/1/scale']],
    [['calibration', 0, 'channels', 1, 'unit'], '', ['source-value-out-of-range /calibration/0/channels/1/unit']],
  ];

  it.each(uncalibrated)('refuses %j = %j in a calibration', (path, value, expected) => {
    expect(codes(changed(path, value, matrixed))).toEqual(expect.arrayContaining([...expected]));
  });

  it('refuses a calibration of virtual plates, and says what to do next about each of its problems', () => {
    const { layout: _, ...without } = matrixed;
    const transport = { kind: 'virtual', script: 'fernwater-three', seed: 7 };
    expect(codes({ ...without, transport })).toEqual(['source-calibration-unused /calibration']);
    expect(schema({ ...without, transport })).toBe(false);
    expect(schema({ ...without, transport, calibration: undefined })).toBe(true);
    const own = (Object.keys(sourceProblems) as (keyof typeof sourceProblems)[]).filter((code) =>
      /calibration|signal|matrix/u.test(code),
    );
    expect(own).toHaveLength(6);
    for (const code of own) expect(sourceNextStep(code)).not.toBe(sourceNextStep('source-type-wrong'));
  });

  it.each(uncalibrated)('and the schema refuses %j = %j, but for what only fits or not', (path, value, expected) => {
    const fitting = /signal-(unknown|counted)|matrix-size|channel-repeated/u.test(expected.join());
    expect(schema(changed(path, value, matrixed))).toBe(fitting);
  });

  const stream = {
    kind: 'stream',
    name: 'Plates',
    sourceId: 'FW-0007',
    host: '10.0.0.4',
    port: 16_575,
    labels: ['a', 'b'],
  };
  const { layout: _layout, ...unlaid } = good;
  it('lets streams through as they are, with as many labels as channels, or with no channels', () => {
    const whole = { ...unlaid, transport: stream };
    expect(parseSourceDescription(whole)).toEqual({ ok: true, description: whole });
    expect(schema(whole)).toBe(true);
    for (const transport of [
      { kind: 'stream', type: 'Force' },
      { kind: 'stream', host: 'boathouse.local' },
    ])
      expect([codes({ ...unlaid, transport, channels: [] }), schema({ ...unlaid, transport, channels: [] })]).toEqual([
        [],
        true,
      ]);
  });

  it.each([
    [{ kind: 'stream' }, 'source-stream-unnamed /transport', false],
    [{ kind: 'stream', port: 16_572, name: 'x' }, 'source-field-missing /transport/host', false],
    [{ ...stream, port: 0 }, 'source-value-out-of-range /transport/port', false],
    [{ ...stream, name: '' }, 'source-value-out-of-range /transport/name', false],
    [{ ...stream, sourceId: 7 }, 'source-type-wrong /transport/sourceId', false],
    [{ ...stream, labels: [] }, 'source-value-out-of-range /transport/labels', false],
    [{ ...stream, labels: ['a', 7] }, 'source-type-wrong /transport/labels/1', false],
    [{ ...stream, labels: ['a'] }, 'source-stream-labels /transport/labels', true],
    [{ ...stream, uid: 'x' }, 'source-field-unknown /transport/uid', false],
  ])('refuses the stream %j by a code', (transport, expected, fits) => {
    expect(codes({ ...unlaid, transport })).toContain(expected);
    expect(schema({ ...unlaid, transport })).toBe(fits);
  });

  it('refuses a layout for a stream', () => {
    expect(codes({ ...good, transport: stream })).toContain('source-layout-unused /layout');
    expect(schema({ ...good, transport: stream })).toBe(false);
  });

  it('has every code in use, in words and in the reference page', () => {
    const used = new Set<string>();
    for (const file of [
      ...[
        'parse.ts',
        'reader.ts',
        'read-layout.ts',
        'read-transport.ts',
        'read-stream-transport.ts',
        'read-channel.ts',
        'read-calibration.ts',
        'read-surface.ts',
      ],
    ]) {
      const text = readFileSync(new URL(file, import.meta.url), 'utf8');
      for (const [, code] of text.matchAll(/'(source-[a-z-]+)'/gu)) used.add(code!);
    }
    expect([...used].sort()).toEqual(Object.keys(sourceProblems).sort());
    const page = readFileSync(new URL('../../../../../docs/reference/source-description.md', import.meta.url), 'utf8');
    for (const [code, meaning] of Object.entries(sourceProblems))
      expect(page).toContain(`| \`${code}\` | ${meaning} |`);
  });

  const reference = (name: string) =>
    readFileSync(new URL(`../../../../../docs/reference/${name}`, import.meta.url), 'utf8');
  const schema = new Ajv2020({ strict: false }).compile(JSON.parse(reference('source-description.schema.json')));

  it('accepts every example of the reference page, and so does its schema', () => {
    const blocks = [...reference('source-description.md').matchAll(/```json\n([\s\S]*?)```/gu)];
    expect(blocks.length).toBe(7);
    for (const [, text] of blocks) {
      const example: unknown = JSON.parse(text!);
      expect(codes(example)).toEqual([]);
      expect(schema(example)).toBe(true);
    }
  });

  it.each(refused)(
    'and the schema refuses %j = %j, but for names that do not fit together',
    (path, value, expected) => {
      const fitting =
        /channel-(repeated|unknown|unread)|counter-repeated|too-long/u.test(expected) || path.includes('rawRange');
      expect(schema(changed(path, value))).toBe(fitting);
    },
  );

  it('refuses whatever else comes in, without a throw', () => {
    fc.assert(
      fc.property(fc.jsonValue(), fc.constantFrom(...Object.keys(good)), (value, key) => {
        expect(parseSourceDescription(value).ok).toBe(false);
        const parsed = parseSourceDescription({ ...good, [key]: value });
        if (!parsed.ok) expect(parsed.problems.length).toBeGreaterThan(0);
      }),
      { numRuns: 300 },
    );
    for (const value of [undefined, null, [], () => 1, Symbol('x'), Object.create(null)]) {
      expect(parseSourceDescription(value).ok).toBe(false);
    }
  });
});
