import type { ForcePlatform, Recording, SourceEvent } from '@sthene/core';
import type { Grouping } from './grouping.ts';
import {
  floats,
  groupBytes,
  inParts,
  integers,
  longText,
  type ParameterRecord,
  parameterBytes,
  single,
  strings,
} from './records.ts';
import { unitText } from './units.ts';
import type { PlannedChannel, WritePlan } from './write-plan.ts';

function pointGroup(recording: Recording, grouping: Grouping, dataStart: number): ParameterRecord[] {
  const { frames, samplesPerFrame } = grouping;
  const long = frames > 65534;
  const empty = (name: string): ParameterRecord => ({ name, type: -1, dimensions: [4, 0], data: new Uint8Array(0) });
  return [
    integers('USED', [0], []),
    floats('SCALE', [-1], []),
    floats('RATE', [recording.sampleRate / samplesPerFrame], []),
    integers('DATA_START', [dataStart], []),
    integers('FRAMES', [long ? 65535 : frames], []),
    ...(long ? [floats('LONG_FRAMES', [frames], [])] : []),
    single('UNITS', recording.platforms[0]?.lengthUnit ?? 'mm'),
    empty('LABELS'),
    empty('DESCRIPTIONS'),
  ];
}

function analogGroup(channels: readonly PlannedChannel[], rate: number): ParameterRecord[] {
  const texts = (name: string, of: (channel: PlannedChannel) => string) =>
    inParts(name, channels, (part, some) => strings(part, some.map(of)));
  return [
    integers('USED', [channels.length], []),
    ...texts('LABELS', (channel) => channel.name),
    ...texts('DESCRIPTIONS', () => ''),
    floats('GEN_SCALE', [1], []),
    ...inParts('SCALE', channels, (name, some) =>
      floats(
        name,
        some.map((c) => c.scale),
        [some.length],
      ),
    ),
    ...inParts('OFFSET', channels, (name, some) =>
      integers(
        name,
        some.map((c) => c.offset),
        [some.length],
      ),
    ),
    ...texts('UNITS', (channel) => unitText(channel.unit)),
    floats('RATE', [rate], []),
    single('FORMAT', 'SIGNED'),
  ];
}

/** Baseline range of the source file, in frames; kept only while frames mean the same as they did there. */
function zeroOf(recording: Recording, grouping: Grouping): number[] {
  const [first = Number.NaN, last = Number.NaN] = (recording.facts['FORCE_PLATFORM:ZERO'] ?? '').split(' ').map(Number);
  const sameFrames = Number(recording.facts['POINT:RATE']) * grouping.samplesPerFrame === recording.sampleRate;
  return sameFrames && first >= 1 && last >= first && last <= 32767 ? [first, last] : [0, 0];
}

function platformGroup(platforms: readonly ForcePlatform[], zero: readonly number[]): ParameterRecord[] {
  const used = platforms.length;
  if (used === 0) return [integers('USED', [0], [])];
  const width = Math.max(...platforms.map((platform) => platform.channels.length));
  const padded = (values: readonly number[], length: number): number[] =>
    Array.from({ length }, (_, i) => values[i] ?? 0);
  const records = [
    integers('USED', [used], []),
    integers(
      'TYPE',
      platforms.map((platform) => platform.type),
      [used],
    ),
    integers('ZERO', zero, [2]),
    floats(
      'CORNERS',
      platforms.flatMap((platform) => padded((platform.corners ?? []).flat(), 12)),
      [3, 4, used],
    ),
    floats(
      'ORIGIN',
      platforms.flatMap((platform) => padded(platform.origin ?? [], 3)),
      [3, used],
    ),
    integers(
      'CHANNEL',
      platforms.flatMap((platform) =>
        padded(
          platform.channels.map((c) => c + 1),
          width,
        ),
      ),
      [width, used],
    ),
  ];
  if (platforms.some((platform) => platform.calibration !== undefined)) {
    // Column order: element (row r, column c) at index 6 c + r.
    const columns = (platform: ForcePlatform): number[] =>
      Array.from({ length: 36 }, (_, i) => platform.calibration?.[i % 6]?.[Math.floor(i / 6)] ?? 0);
    records.push(floats('CAL_MATRIX', platforms.flatMap(columns), [6, 6, used]));
  }
  return records;
}

function eventGroup(events: readonly SourceEvent[]): ParameterRecord[] {
  const some = events.slice(0, 255);
  const times = some.flatMap(({ time }) => {
    const minutes = Math.trunc(time / 60);
    return [minutes, time - 60 * minutes];
  });
  return [
    integers('USED', [some.length], []),
    floats('TIMES', times, [2, some.length]),
    strings(
      'LABELS',
      some.map((event) => event.label),
    ),
  ];
}

/**
 * The parameter section without its four leading bytes, and padding left to the caller: all groups and parameters.
 *
 * @param ownText JSON of the group STHENE
 * @param dataStart block of the data section; its value does not change the length
 */
export function parameterRecords(
  recording: Recording,
  plan: WritePlan,
  grouping: Grouping,
  ownText: string,
  dataStart: number,
): Uint8Array[] {
  const groups: [string, ParameterRecord[]][] = [
    ['POINT', pointGroup(recording, grouping, dataStart)],
    ['ANALOG', analogGroup(plan.channels, recording.sampleRate)],
    ['FORCE_PLATFORM', platformGroup(plan.platforms, zeroOf(recording, grouping))],
    ...(recording.events.length > 0 ? [['EVENT', eventGroup(recording.events)] as [string, ParameterRecord[]]] : []),
    ['STHENE', longText('META', ownText)],
  ];
  return groups.flatMap(([name, parameters], i) => [
    groupBytes(name, i + 1),
    ...parameters.map((parameter) => parameterBytes(parameter, i + 1)),
  ]);
}
