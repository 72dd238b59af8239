import type { SourceDescriptionDocument } from '@sthene/contract';
import { rigWords } from '../../../words/rig.ts';
import type { Fault } from './faults.ts';

type Calibration = NonNullable<SourceDescriptionDocument['calibration']>[number];

/** What of a calibration does not fit together: signals with the channels that come, the matrix with its sides, names. */
export function calibrationFaults({ channels, calibration = [] }: SourceDescriptionDocument): Fault[] {
  const t = rigWords.faults;
  const names = new Set(channels.map(({ name }) => name));
  return calibration.flatMap((one, c) => {
    const at = `calibration.${c}`;
    const repeated = one.channels.flatMap(({ name }, i) => {
      const taken = names.has(name);
      names.add(name);
      return taken ? [{ path: `${at}.channels.${i}.name`, words: t.twice(name) }] : [];
    });
    return [...signalFaults(one, channels, at), ...sizeFaults(one, at), ...repeated];
  });
}

function signalFaults({ signals }: Calibration, channels: SourceDescriptionDocument['channels'], at: string): Fault[] {
  const t = rigWords.faults;
  return signals.flatMap((name, i) => {
    const place = channels.findIndex((channel) => channel.name === name);
    if (place < 0) return [{ path: `${at}.signals`, words: t.noChannel(name) }];
    if (signals.indexOf(name) < i) return [{ path: `${at}.signals`, words: t.signalTwice(name) }];
    return channels[place]?.axis === 'other' ? [] : [{ path: `channels.${place}.axis`, words: t.signalCounted }];
  });
}

function sizeFaults({ signals, matrix, channels }: Calibration, at: string): Fault[] {
  const t = rigWords.faults;
  const rows = matrix.flatMap((row, i) => {
    const path = `${at}.matrix.${i}`;
    if (row.length !== signals.length) return [{ path, words: t.rowSize(row.length, signals.length) }];
    return row.every((factor) => factor === 0) ? [{ path, words: t.rowZero }] : [];
  });
  return matrix.length === channels.length
    ? rows
    : [{ path: `${at}.matrix`, words: t.matrixSize(matrix.length, channels.length) }, ...rows];
}
