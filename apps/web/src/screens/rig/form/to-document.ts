import { matrixOf } from './matrix-text.ts';
import { numberOf } from './number-of.ts';
import type {
  CalibrationForm,
  ChannelForm,
  ChecksumForm,
  FieldForm,
  LayoutForm,
  SourceForm,
  SurfaceForm,
} from './source-form.ts';
import { mayCalibrate, needsLayout } from './source-form.ts';

const textOf = (text: string): string | undefined => (text.trim() === '' ? undefined : text.trim());

/** Without what was left empty. */
function given(all: Record<string, unknown>): Record<string, unknown> {
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined));
}

/** The description as the form says it, not validated. */
export function documentOf(form: SourceForm): Record<string, unknown> {
  return given({
    schema: 'sthene.source/1',
    name: form.name.trim(),
    transport: transportOf(form),
    layout: needsLayout(form.kind) ? layoutOf(form.layout) : undefined,
    channels: form.channels.map(channelOf),
    calibration:
      mayCalibrate(form.kind) && form.calibration.length > 0 ? form.calibration.map(calibrationOf) : undefined,
    rate: numberOf(form.rate),
    notes: textOf(form.notes),
  });
}

function transportOf(form: SourceForm): Record<string, unknown> {
  const { kind } = form;
  switch (kind) {
    case 'serial': {
      const { path, baudRate, dataBits, parity, stopBits, serialNumber, startBytes } = form.serial;
      return given({
        kind,
        path: path.trim(),
        baudRate: numberOf(baudRate),
        dataBits: numberOf(dataBits),
        parity: textOf(parity),
        stopBits: numberOf(stopBits),
        serialNumber: textOf(serialNumber),
        startBytes: hexOf(startBytes),
      });
    }
    case 'tcp': {
      const { mode, host, port, startBytes } = form.tcp;
      return given({ kind, mode, host: host.trim(), port: numberOf(port), startBytes: hexOf(startBytes) });
    }
    case 'udp':
      return given({ kind, host: form.udp.host.trim(), port: numberOf(form.udp.port) });
    case 'stream': {
      const { name, type, sourceId, host, port, labels } = form.stream;
      return given({
        kind,
        name: textOf(name),
        type: textOf(type),
        sourceId: textOf(sourceId),
        host: textOf(host),
        port: numberOf(port),
        labels: labels.length > 0 ? labels : undefined,
      });
    }
    case 'folder':
      return given({ kind, path: form.folder.path.trim(), pattern: textOf(form.folder.pattern) });
    case 'replay':
      return given({
        kind,
        file: form.replay.file.trim(),
        speed: numberOf(form.replay.speed),
        repeat: form.replay.repeat || undefined,
      });
    case 'virtual':
      return given({
        kind,
        script: form.virtual.script,
        seed: numberOf(form.virtual.seed),
        speed: numberOf(form.virtual.speed),
      });
  }
}

/** Hexadecimal as people write it: blanks between the bytes do not count. */
const hexOf = (text: string): string | undefined => textOf(text.replace(/\s+/g, ''));

function layoutOf(layout: LayoutForm): Record<string, unknown> {
  if (layout.kind === 'lines')
    return given({
      kind: 'lines',
      delimiter: layout.delimiter,
      decimal: textOf(layout.decimal),
      comment: textOf(layout.comment),
      fields: layout.fields.map((field) => roleOf(field)),
    });
  return given({
    kind: 'frames',
    sync: hexOf(layout.sync) ?? '',
    endian: layout.endian,
    head: layout.head.map((field) => ({ ...roleOf(field), type: field.type })),
    sample: layout.sample.map((field) => ({ ...roleOf(field), type: field.type })),
    samples: numberOf(layout.samples),
    checksum: checksumOf(layout.checksum),
  });
}

function roleOf({ role, channel, unit, wrapsAt, step }: FieldForm): Record<string, unknown> {
  switch (role) {
    case 'counter':
      return given({ role, wrapsAt: numberOf(wrapsAt), step: numberOf(step) });
    case 'time':
      return given({ role, unit, wrapsAt: numberOf(wrapsAt) });
    case 'channel':
      return { role, channel: channel.trim() };
    default:
      return { role };
  }
}

function checksumOf({ kind, withSync, polynomial, initial, reflected, finalXor, endian }: ChecksumForm) {
  const sync = { withSync: withSync || undefined };
  switch (kind) {
    case 'none':
      return { kind };
    case 'crc16':
      return given({
        kind,
        polynomial: numberOf(polynomial),
        initial: numberOf(initial),
        reflected,
        finalXor: numberOf(finalXor),
        endian: textOf(endian),
        ...sync,
      });
    case 'crc32':
      return given({ kind, endian: textOf(endian), ...sync });
    default:
      return given({ kind, ...sync });
  }
}

function channelOf({ name, plate, side, axis, unit, scale, offset, low, high, surface }: ChannelForm) {
  const range = [numberOf(low), numberOf(high)];
  return given({
    name: name.trim(),
    plate: plate.trim(),
    side,
    axis,
    unit: unit.trim(),
    scale: numberOf(scale),
    offset: numberOf(offset),
    rawRange: range.some((end) => end !== undefined) ? range : undefined,
    surface: surfaceOf(surface),
  });
}

/** Nothing where both fields are empty; corners alone miss their middle, and the schema says so there. */
function surfaceOf({ origin, corners }: SurfaceForm = { origin: '', corners: '' }) {
  if (textOf(origin) === undefined && textOf(corners) === undefined) return undefined;
  return given({
    origin: matrixOf(origin).flat(),
    corners: textOf(corners) === undefined ? undefined : matrixOf(corners),
  });
}

function calibrationOf({ signals, matrix, channels }: CalibrationForm) {
  return {
    signals: signals.map((name) => name.trim()),
    matrix: matrixOf(matrix),
    channels: channels.map(({ name, plate, side, axis, unit, surface }) =>
      given({
        ...{ name: name.trim(), plate: plate.trim(), side, axis },
        unit: unit.trim(),
        surface: surfaceOf(surface),
      }),
    ),
  };
}
