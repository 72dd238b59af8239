import type { SourceDescriptionDocument } from '@sthene/contract';
import { matrixText } from './matrix-text.ts';
import {
  type ChannelForm,
  type ChecksumForm,
  emptyField,
  emptyForm,
  type FieldForm,
  type LayoutForm,
  type SourceForm,
} from './source-form.ts';

const text = (value: number | string | undefined): string => (value === undefined ? '' : String(value));
const hex = (value: number): string => `0x${value.toString(16).toUpperCase()}`;

/** A description as texts of its form. `documentOf` of the answer gives the same description. */
export function formOf(document: SourceDescriptionDocument): SourceForm {
  const { transport } = document;
  const form: SourceForm = {
    ...emptyForm,
    name: document.name,
    rate: text(document.rate),
    notes: document.notes ?? '',
    kind: transport.kind,
    layout: document.layout ? layoutForm(document.layout) : emptyForm.layout,
    channels: document.channels.map(channelText),
    calibration: (document.calibration ?? []).map(({ signals, matrix, channels }) => ({
      signals,
      matrix: matrixText(matrix),
      channels: channels.map(({ surface, ...channel }) => ({ ...channel, ...surfaceText(surface) })),
    })),
  };
  switch (transport.kind) {
    case 'serial':
      return {
        ...form,
        serial: {
          path: transport.path,
          baudRate: text(transport.baudRate),
          dataBits: text(transport.dataBits),
          parity: text(transport.parity),
          stopBits: text(transport.stopBits),
          serialNumber: text(transport.serialNumber),
          startBytes: text(transport.startBytes),
        },
      };
    case 'tcp': {
      const { mode, host, port, startBytes } = transport;
      return { ...form, tcp: { mode, host, port: text(port), startBytes: text(startBytes) } };
    }
    case 'udp':
      return { ...form, udp: { host: transport.host, port: text(transport.port) } };
    case 'stream': {
      const { name, type, sourceId, host, port, labels = [] } = transport;
      const named = { name: text(name), type: text(type), sourceId: text(sourceId) };
      return { ...form, stream: { ...named, host: text(host), port: text(port), labels } };
    }
    case 'folder':
      return { ...form, folder: { path: transport.path, pattern: text(transport.pattern) } };
    case 'replay':
      return {
        ...form,
        replay: { file: transport.file, speed: text(transport.speed), repeat: transport.repeat === true },
      };
    case 'virtual': {
      const { script, seed, speed } = transport;
      return { ...form, virtual: { script, seed: text(seed), speed: text(speed) } };
    }
  }
}

type Layout = NonNullable<SourceDescriptionDocument['layout']>;
type Lines = Extract<Layout, { kind: 'lines' }>;
type Frames = Extract<Layout, { kind: 'frames' }>;

function layoutForm(layout: Layout): LayoutForm {
  const base = emptyForm.layout;
  if (layout.kind === 'lines')
    return {
      ...base,
      kind: 'lines',
      delimiter: layout.delimiter,
      decimal: text(layout.decimal),
      comment: text(layout.comment),
      fields: layout.fields.map((field) => fieldForm(field)),
    };
  return {
    ...base,
    kind: 'frames',
    sync: layout.sync,
    endian: layout.endian,
    head: layout.head.map((field) => fieldForm(field, field.type)),
    sample: layout.sample.map((field) => fieldForm(field, field.type)),
    samples: text(layout.samples),
    checksum: checksumForm(layout.checksum),
  };
}

function fieldForm(field: Lines['fields'][number], type = emptyField.type): FieldForm {
  const base = { ...emptyField, type, role: field.role };
  switch (field.role) {
    case 'counter':
      return { ...base, wrapsAt: text(field.wrapsAt), step: text(field.step) };
    case 'time':
      return { ...base, unit: field.unit, wrapsAt: text(field.wrapsAt) };
    case 'channel':
      return { ...base, channel: field.channel };
    case 'ignore':
      return base;
  }
}

function checksumForm(checksum: Frames['checksum']): ChecksumForm {
  const base = emptyForm.layout.checksum;
  if (checksum.kind === 'none') return { ...base, kind: 'none' };
  const common = { ...base, kind: checksum.kind, withSync: checksum.withSync === true };
  if (checksum.kind === 'crc32') return { ...common, endian: text(checksum.endian) };
  if (checksum.kind !== 'crc16') return common;
  return {
    ...common,
    polynomial: hex(checksum.polynomial),
    initial: hex(checksum.initial),
    reflected: checksum.reflected,
    finalXor: hex(checksum.finalXor),
    endian: text(checksum.endian),
  };
}

function channelText(channel: SourceDescriptionDocument['channels'][number]): ChannelForm {
  const { name, plate, side, axis, unit, scale, offset, rawRange, surface } = channel;
  return {
    name,
    plate,
    side,
    axis,
    unit,
    scale: text(scale),
    offset: text(offset),
    low: text(rawRange?.[0]),
    high: text(rawRange?.[1]),
    ...surfaceText(surface),
  };
}

function surfaceText(surface: SourceDescriptionDocument['channels'][number]['surface']): Pick<ChannelForm, 'surface'> {
  if (surface === undefined) return {};
  const lines = (places: readonly (readonly number[])[]) => places.map((place) => place.join(' ')).join('\n');
  return { surface: { origin: lines([surface.origin]), corners: lines(surface.corners ?? []) } };
}
