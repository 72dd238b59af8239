import type { CalibrationDescription, ChannelDescription } from '../description.ts';
import { identityKeys, readIdentity } from './read-channel.ts';
import type { Reader } from './reader.ts';

const most = { calibrations: 32, signals: 64, channels: 64 } as const;

/** Reads the calibrations of a description. */
export function readCalibrations(
  read: Reader,
  fields: Readonly<Record<string, unknown>>,
): readonly CalibrationDescription[] {
  return read
    .list(fields, 'calibration', '', [1, most.calibrations])
    .map((one, i) => readCalibration(read, one, `/calibration/${i}`));
}

function readCalibration(read: Reader, value: unknown, at: string): CalibrationDescription {
  const f = read.object(value, at, ['signals', 'matrix', 'channels']);
  if (f === undefined) return { signals: [], matrix: [], channels: [] };
  const signals = read.list(f, 'signals', at, [1, most.signals]);
  const channels = read.list(f, 'channels', at, [1, most.channels]);
  const matrix = read.list(f, 'matrix', at, [1, most.channels]).map((_, row, rows) => {
    const factors = read.list(rows as never, String(row), `${at}/matrix`, [1, most.signals]);
    return factors.map((_, column) =>
      read.number(factors as never, String(column), `${at}/matrix/${row}`, -1e12, 1e12),
    );
  });
  return {
    signals: signals.map((_, i) => read.text(signals as never, String(i), `${at}/signals`)),
    matrix,
    channels: channels.map((one, i) => {
      const place = `${at}/channels/${i}`;
      return readIdentity(read, read.object(one, place, identityKeys) ?? {}, place);
    }),
  };
}

/** What must fit together: signals with the channels that come, the matrix with both its sides, names with each other. */
export function checkCalibrations(
  read: Reader,
  calibrations: readonly CalibrationDescription[],
  channels: readonly ChannelDescription[],
): void {
  const names = new Set(channels.map(({ name }) => name));
  calibrations.forEach(({ signals, matrix, channels: made }, c) => {
    const at = `/calibration/${c}`;
    checkSignals(read, signals, channels, at);
    checkSize(read, { signals, matrix, channels: made }, at);
    made.forEach(({ name }, i) => {
      if (names.has(name)) {
        read.problem('source-channel-repeated', `${at}/channels/${i}/name`, 'Another channel has this name.', {
          found: name,
        });
      }
      names.add(name);
    });
  });
}

function checkSignals(
  read: Reader,
  signals: readonly string[],
  channels: readonly ChannelDescription[],
  at: string,
): void {
  signals.forEach((name, i) => {
    const place = channels.findIndex((channel) => channel.name === name);
    const axis = channels[place]?.axis;
    if (axis === undefined) {
      read.problem('source-signal-unknown', `${at}/signals/${i}`, 'No channel of this name comes in.', { found: name });
    } else if (signals.indexOf(name) < i) {
      read.problem('source-signal-repeated', `${at}/signals/${i}`, 'This signal has a column already.', {
        found: name,
      });
    } else if (axis !== 'other') {
      const words = 'This channel is a signal of a calibration and would count beside what is made of it.';
      read.problem('source-signal-counted', `/channels/${place}/axis`, words, { expected: 'other', found: axis });
    }
  });
}

function checkSize(read: Reader, { signals, matrix, channels }: CalibrationDescription, at: string): void {
  if (matrix.length !== channels.length) {
    const words = 'The matrix has to have one row for each channel it makes.';
    read.problem('source-matrix-size', `${at}/matrix`, words, {
      expected: counted(channels.length, 'row'),
      found: counted(matrix.length, 'row'),
    });
  }
  matrix.forEach((row, i) => {
    if (row.length !== signals.length) {
      const words = 'A row of the matrix has to have one number for each signal.';
      read.problem('source-matrix-size', `${at}/matrix/${i}`, words, {
        expected: counted(signals.length, 'number'),
        found: counted(row.length, 'number'),
      });
    } else if (row.every((factor) => factor === 0)) {
      read.problem('source-matrix-zero', `${at}/matrix/${i}`, 'A row of zeros would make every value zero.');
    }
  });
}

const counted = (n: number, what: string): string => `${n} ${what}${n === 1 ? '' : 's'}`;
