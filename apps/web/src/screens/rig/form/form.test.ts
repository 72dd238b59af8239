import type { SourceDescriptionDocument } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { lookAt } from './faults.ts';
import { formOf } from './from-document.ts';
import { numberOf } from './number-of.ts';
import { emptyForm, type SourceForm } from './source-form.ts';
import { documentOf } from './to-document.ts';

type Place = [number, number, number];
const channels: SourceDescriptionDocument['channels'] = [
  {
    name: 'left',
    plate: 'L',
    side: 'left',
    axis: 'z',
    unit: 'N',
    scale: 0.25,
    offset: -3.5,
    rawRange: [-32768, 32767],
  },
  { name: 'right', plate: 'R', side: 'right', axis: 'z', unit: 'N', scale: 0.25, offset: 0 },
];
const base = { schema: 'sthene.source/1', name: 'Rack plates', channels, rate: 1000 } as const;
const lines: SourceDescriptionDocument['layout'] = {
  kind: 'lines',
  delimiter: ';',
  decimal: ',',
  comment: '#',
  fields: [
    { role: 'counter', wrapsAt: 65536, step: 2 },
    { role: 'time', unit: 'us', wrapsAt: 4294967296 },
    { role: 'channel', channel: 'left' },
    { role: 'ignore' },
    { role: 'channel', channel: 'right' },
  ],
};
const frames = (
  checksum: Extract<NonNullable<SourceDescriptionDocument['layout']>, { kind: 'frames' }>['checksum'],
): SourceDescriptionDocument['layout'] => ({
  kind: 'frames',
  sync: 'AA55',
  endian: 'big',
  head: [{ role: 'counter', type: 'u16' }],
  sample: [
    { role: 'channel', channel: 'left', type: 'i24' },
    { role: 'channel', channel: 'right', type: 'f32' },
  ],
  samples: 10,
  checksum,
});

const signals = channels.map((channel) => ({ ...channel, axis: 'other' as const, unit: 'mV/V' }));
const calibration: SourceDescriptionDocument['calibration'] = [
  {
    signals: ['right', 'left'],
    matrix: [
      [2503.1, -1e-7],
      [0, 0.1],
    ],
    channels: [
      { name: 'Fz', plate: 'P', side: 'none', axis: 'z', unit: 'N' },
      { name: 'My', plate: 'P', side: 'none', axis: 'my', unit: 'N.m' },
    ],
  },
];

const corners: [Place, Place, Place, Place] = [
  [400, 600, 0],
  [0, 600, 0],
  [0, 0, 0],
  [400, 0, -0.5],
];
const sixOf = (plate: string) =>
  (['x', 'y', 'z', 'mx', 'my', 'mz'] as const).map((axis) => ({
    ...{ name: axis, plate, side: 'none' as const, axis, unit: axis.startsWith('m') ? 'N.m' : 'N' },
    ...(axis === 'z' ? { surface: { origin: [0, 0, -40.5] as Place, corners } } : {}),
  }));

const documents: Record<string, SourceDescriptionDocument> = {
  serial: { ...base, transport: { kind: 'serial', path: '/dev/ttyUSB0', baudRate: 921600 }, layout: lines },
  'serial with everything': {
    ...base,
    transport: {
      kind: 'serial',
      path: 'COM7',
      baudRate: 9600,
      dataBits: 7,
      parity: 'even',
      stopBits: 2,
      serialNumber: 'A1',
      startBytes: '5301',
    },
    layout: frames({
      kind: 'crc16',
      polynomial: 0x1021,
      initial: 0xffff,
      reflected: false,
      finalXor: 0,
      endian: 'big',
      withSync: true,
    }),
    notes: 'By the window.',
  },
  'serial with a matrix': {
    ...base,
    transport: { kind: 'serial', path: '/dev/ttyUSB0', baudRate: 921600 },
    layout: lines,
    channels: signals,
    calibration,
  },
  'udp with a surface': {
    ...base,
    transport: { kind: 'udp', host: '10.0.0.9', port: 5000 },
    layout: {
      kind: 'lines',
      delimiter: ',',
      fields: sixOf('P').map(({ name }) => ({ role: 'channel', channel: name })),
    },
    channels: sixOf('P').map((channel) => ({ ...channel, scale: 1, offset: 0 })),
  },
  'serial with a matrix that makes a surface': {
    ...base,
    transport: { kind: 'serial', path: '/dev/ttyUSB0', baudRate: 921600 },
    layout: lines,
    channels: signals,
    calibration: [
      {
        signals: ['left', 'right'],
        matrix: sixOf('P').map((_, i) => [i, 1]),
        channels: sixOf('P').map(({ surface, ...channel }) =>
          surface === undefined ? channel : { ...channel, surface: { origin: surface.origin } },
        ),
      },
    ],
  },
  tcp: {
    ...base,
    transport: { kind: 'tcp', mode: 'listen', host: '0.0.0.0', port: 0, startBytes: '01' },
    layout: frames({ kind: 'sum8', withSync: true }),
  },
  udp: { ...base, transport: { kind: 'udp', host: '10.0.0.9', port: 5000 }, layout: frames({ kind: 'crc32' }) },
  'udp without a checksum': {
    ...base,
    transport: { kind: 'udp', host: '::1', port: 5000 },
    layout: frames({ kind: 'none' }),
  },
  folder: { ...base, transport: { kind: 'folder', path: '/data/in', pattern: '*.csv' }, channels: [] },
  stream: { ...base, transport: { kind: 'stream', name: 'Plates', type: 'Force' } },
  'stream with everything': {
    ...base,
    transport: {
      ...{ kind: 'stream', name: 'Plates', type: 'Force', sourceId: 'FW-0007', host: 'boathouse.local', port: 16_580 },
      labels: ['Left Fz', 'Right Fz'],
    },
  },
  replay: { ...base, transport: { kind: 'replay', file: 'day.bin', speed: 0, repeat: true } },
  virtual: { ...base, transport: { kind: 'virtual', script: '', seed: 7, speed: 2 }, channels: [] },
};

describe('source description as a form', () => {
  it.each(Object.entries(documents))('%s comes back as it went in', (_, document) => {
    expect(documentOf(formOf(document))).toEqual(document);
    expect(lookAt(documentOf(formOf(document)))).toEqual({ ok: true, description: document });
  });
  it('reads numbers as people write them and never swallows what is none', () => {
    expect(numberOf(' 0,25 ')).toBe(0.25);
    expect(numberOf('0x1021')).toBe(4129);
    expect(numberOf('')).toBeUndefined();
    expect(numberOf('12 kHz')).toBe('12 kHz');
  });
});

const faultsOf = (form: SourceForm) => {
  const looked = lookAt(documentOf(form));
  return looked.ok ? [] : looked.faults.map(({ path }) => path);
};
const good: SourceForm = { ...emptyForm, name: 'Plates', serial: { ...emptyForm.serial, path: '/dev/ttyUSB0' } };

describe('faults stand at their fields', () => {
  it('finds none in a complete form', () => expect(faultsOf(good)).toEqual([]));
  it.each([
    ['name', { ...good, name: ' ' }],
    ['rate', { ...good, rate: 'fast' }],
    ['transport.path', { ...good, serial: { ...good.serial, path: '' } }],
    ['transport.baudRate', { ...good, serial: { ...good.serial, baudRate: '115k' } }],
    ['transport.startBytes', { ...good, serial: { ...good.serial, startBytes: '5' } }],
    ['transport.port', { ...good, kind: 'tcp' as const }],
    [
      'channels.1.scale',
      { ...good, channels: good.channels.map((one, i) => (i === 1 ? { ...one, scale: 'x' } : one)) },
    ],
    ['channels.1.name', { ...good, channels: good.channels.map((one) => ({ ...one, name: 'left' })) }],
    [
      'channels.0.rawRange.1',
      { ...good, channels: good.channels.map((one, i) => (i === 0 ? { ...one, low: '0' } : one)) },
    ],
    [
      'layout.fields.0.channel',
      {
        ...good,
        layout: {
          ...good.layout,
          fields: good.layout.fields.map((one, i) => (i === 0 ? { ...one, channel: 'l' } : one)),
        },
      },
    ],
  ])('%s', (path, form) => expect(faultsOf(form)).toContain(path));
  const surfaced = (origin: string, corners: string): SourceForm => ({
    ...good,
    channels: good.channels.map((one, i) => (i === 0 ? { ...one, surface: { origin, corners } } : one)),
  });
  it('tells each field of a surface once, and leaves out one that is empty', () => {
    expect(faultsOf(surfaced('0 0', ''))).toEqual(['channels.0.surface.origin']);
    expect(faultsOf(surfaced('0; zero; up', ''))).toEqual(['channels.0.surface.origin']);
    expect(faultsOf(surfaced('', '1 2 3\n4 5 6'))).toEqual(['channels.0.surface.origin', 'channels.0.surface.corners']);
    expect(documentOf(surfaced('0, 0, \u221240', ' '))).toMatchObject({
      channels: [{ surface: { origin: [0, 0, -40] } }, {}],
    });
    expect(faultsOf(surfaced('', ' '))).toEqual([]);
    expect((documentOf(surfaced('', ' ')).channels as object[])[0]).not.toHaveProperty('surface');
  });
  const matrixed: SourceForm = {
    ...good,
    channels: good.channels.map((one) => ({ ...one, axis: 'other' })),
    calibration: [
      {
        signals: ['left', 'right'],
        matrix: '400,5 -0,5\n0 398',
        channels: ['Fz', 'Mx'].map((name) => ({ name, plate: 'P', side: 'none', axis: 'z', unit: 'N' })),
      },
    ],
  };
  const withPart = (part: Partial<SourceForm['calibration'][number]>): SourceForm => ({
    ...matrixed,
    calibration: [{ ...matrixed.calibration[0]!, ...part }],
  });
  it('finds none in a matrix that fits, and none of a matrix that virtual plates leave out', () => {
    expect(faultsOf(matrixed)).toEqual([]);
    expect(documentOf({ ...withPart({ matrix: 'x' }), kind: 'virtual' })).not.toHaveProperty('calibration');
  });
  it.each<[string, SourceForm]>([
    ['calibration.0.matrix', withPart({ matrix: '' })],
    ['calibration.0.matrix', withPart({ matrix: '400 0' })],
    ['calibration.0.matrix.1', withPart({ matrix: '400 0\n0' })],
    ['calibration.0.matrix.1', withPart({ matrix: '400 0\n0 0' })],
    ['calibration.0.matrix.1.0', withPart({ matrix: '400 0\nN/A 398' })],
    ['calibration.0.signals', withPart({ signals: [] })],
    ['calibration.0.signals', withPart({ signals: ['left', 'rear'] })],
    ['calibration.0.channels', withPart({ channels: [] })],
    [
      'calibration.0.channels.1.name',
      withPart({ channels: matrixed.calibration[0]!.channels.map((one) => ({ ...one, name: 'Fz' })) }),
    ],
    ['channels.0.axis', { ...matrixed, channels: good.channels }],
  ])('%s of a matrix', (path, form) => expect(faultsOf(form)).toContain(path));
  it('asks for a field of every channel', () => {
    const form = { ...good, layout: { ...good.layout, fields: good.layout.fields.slice(0, 1) } };
    expect(faultsOf(form)).toEqual(['channels.1.name']);
  });
});
