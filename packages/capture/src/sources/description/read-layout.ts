import type { Checksum, FieldRole, FieldType, FrameLayout, LineLayout } from '../description.ts';
import type { Reader } from './reader.ts';

export const fieldTypes: readonly FieldType[] = ['u8', 'i8', 'u16', 'i16', 'u24', 'i24', 'u32', 'i32', 'f32', 'f64'];

/** Longest frame, bytes, and longest line, characters. */
export const longestFrame = 16_384;
export const longestLine = 4_096;

/** Reads how bytes become rows. */
export function readLayout(read: Reader, value: unknown): LineLayout | FrameLayout | undefined {
  const at = '/layout';
  const lines = ['kind', 'delimiter', 'decimal', 'comment', 'fields'];
  const frames = ['kind', 'sync', 'endian', 'head', 'sample', 'samples', 'checksum'];
  const guess = (value as { kind?: unknown } | null)?.kind;
  const f = read.object(value, at, guess === 'lines' ? lines : guess === 'frames' ? frames : [...lines, ...frames]);
  if (f === undefined) return undefined;
  const kind = read.choice(f, 'kind', at, ['lines', 'frames'] as const);
  if (kind !== f.kind) return undefined;
  if (kind === 'lines') {
    const delimiter = read.text(f, 'delimiter', at, [1, 1]);
    const decimal = f.decimal === undefined ? '.' : read.choice(f, 'decimal', at, ['.', ','] as const);
    if (delimiter === decimal || /^[0-9+\-.eE\r\n]$/u.test(delimiter)) {
      read.problem('source-sign-ambiguous', `${at}/delimiter`, 'The delimiter also belongs to numbers or ends lines.', {
        found: delimiter,
      });
    }
    const comment = f.comment === undefined ? {} : { comment: read.text(f, 'comment', at, [1, 16]) };
    const fields = read.list(f, 'fields', at, [1, 512]).map((one, i) => readRole(read, one, `${at}/fields/${i}`, []));
    return { kind, delimiter, ...(f.decimal === undefined ? {} : { decimal }), ...comment, fields };
  }
  const typed = (key: 'head' | 'sample', least: number) =>
    read.list(f, key, at, [least, 512]).map((one, i) => {
      const place = `${at}/${key}/${i}`;
      const role = readRole(read, one, place, ['type']);
      const type = read.choice(Object(one), 'type', place, fieldTypes);
      if (role.role === 'counter' && (type === 'f32' || type === 'f64')) {
        read.problem('source-choice-unknown', `${place}/type`, 'A counter has to be a whole number.', { found: type });
      }
      return { ...role, type };
    });
  return {
    kind,
    sync: read.hex(f, 'sync', at, [1, 16]),
    endian: read.choice(f, 'endian', at, ['little', 'big'] as const),
    head: typed('head', 0),
    sample: typed('sample', 1),
    samples: read.number(f, 'samples', at, 1, 4096, true),
    checksum: readChecksum(read, f.checksum),
  };
}

function readRole(read: Reader, value: unknown, at: string, more: readonly string[]): FieldRole {
  const guess = (value as { role?: unknown } | null)?.role;
  const own: Readonly<Record<string, readonly string[]>> = {
    counter: ['wrapsAt', 'step'],
    time: ['unit', 'wrapsAt'],
    channel: ['channel'],
    ignore: [],
  };
  const known = Object.hasOwn(own, String(guess))
    ? (own[String(guess)] as readonly string[])
    : Object.values(own).flat();
  const f = read.object(value, at, ['role', ...known, ...more]);
  if (f === undefined) return { role: 'ignore' };
  const role = read.choice(f, 'role', at, ['ignore', 'counter', 'time', 'channel'] as const);
  const wraps = (whole: boolean) =>
    f.wrapsAt === undefined ? {} : { wrapsAt: read.number(f, 'wrapsAt', at, 1, Number.MAX_SAFE_INTEGER, whole) };
  if (role === 'counter') {
    const step = f.step === undefined ? {} : { step: read.number(f, 'step', at, 1, 1e9, true) };
    return { role, ...wraps(true), ...step };
  }
  if (role === 'time') return { role, unit: read.choice(f, 'unit', at, ['s', 'ms', 'us'] as const), ...wraps(false) };
  if (role === 'channel') return { role, channel: read.text(f, 'channel', at) };
  return { role: 'ignore' };
}

function readChecksum(read: Reader, value: unknown): Checksum {
  const at = '/layout/checksum';
  const kinds = ['none', 'sum8', 'xor8', 'crc16', 'crc32'] as const;
  const f = read.object(value, at, ['kind', 'polynomial', 'initial', 'reflected', 'finalXor', 'endian', 'withSync']);
  if (f === undefined) return { kind: 'none' };
  const kind = read.choice(f, 'kind', at, kinds);
  const withSync = f.withSync === undefined ? {} : { withSync: read.flag(f, 'withSync', at) };
  const endian = f.endian === undefined ? {} : { endian: read.choice(f, 'endian', at, ['little', 'big'] as const) };
  switch (kind) {
    case 'none':
      return { kind };
    case 'sum8':
    case 'xor8':
      return { kind, ...withSync };
    case 'crc32':
      return { kind, ...endian, ...withSync };
    case 'crc16': {
      const word = (key: string) => read.number(f, key, at, 0, 0xffff, true);
      return {
        kind,
        polynomial: word('polynomial'),
        initial: word('initial'),
        reflected: read.flag(f, 'reflected', at),
        finalXor: word('finalXor'),
        ...endian,
        ...withSync,
      };
    }
  }
}
