import type { SourceDescriptionDocument } from '@sthene/contract';
import { describe, expect, it } from 'vitest';
import { lookAt } from './faults.ts';
import { formOf } from './from-document.ts';
import { emptyForm, type SourceForm } from './source-form.ts';
import { documentOf, numberOf } from './to-document.ts';

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
  it('asks for a field of every channel', () => {
    const form = { ...good, layout: { ...good.layout, fields: good.layout.fields.slice(0, 1) } };
    expect(faultsOf(form)).toEqual(['channels.1.name']);
  });
});
