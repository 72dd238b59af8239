import { convertible } from '@sthene/core';
import type { StreamInfo } from '../../../streaming/stream-info.ts';
import type { ChannelDescription, SourceDescription } from '../../description.ts';

/** Words that programs write for units, in UCUM. */
const units: Readonly<Record<string, string>> = {
  newton: 'N',
  newtons: 'N',
  kilonewton: 'kN',
  kilonewtons: 'kN',
  'newton meters': 'N.m',
  'newton metres': 'N.m',
  nm: 'N.m',
  volts: 'V',
  millivolts: 'mV',
};

const longestName = 100;
const axis = /(?:^|[^a-z])([fm]?)([xyz])(?:[^a-z]|$)/iu;
const whole = /(?:^|[^a-z])(?:total|sum)(?:[^a-z]|$)/iu;

/**
 * Channels as a stream names them: a proposal for a person to look at. Sides and axes are taken from words and letters of the labels (left,
 * right, Fz, Mx); a single force is one whose unit is a force; what is the total beside its sides counts as no force of its own.
 */
export function channelsOfStream(info: StreamInfo): ChannelDescription[] {
  const taken = new Set<string>();
  const sided = info.channels.some(({ label }) => sideOf(label) !== 'none');
  return Array.from({ length: info.channelCount }, (_, i) => {
    const { label = '', unit: said = '' } = info.channels[i] ?? {};
    const name = freeName(label === '' ? `channel ${i + 1}` : label.slice(0, longestName), taken);
    const unit = (units[said.toLowerCase()] ?? said).slice(0, 20) || '1';
    const side = sideOf(label);
    return { name, plate: name, side, axis: axisOf(label, unit, sided), unit, scale: 1, offset: 0 };
  });
}

const sideOf = (label: string): ChannelDescription['side'] =>
  /left/iu.test(label) ? 'left' : /right/iu.test(label) ? 'right' : 'none';

function axisOf(label: string, unit: string, sided: boolean): ChannelDescription['axis'] {
  if (sided && whole.test(label)) return 'other';
  const [, kind = '', letter = ''] = axis.exec(label) ?? [];
  const found = letter.toLowerCase() as 'x' | 'y' | 'z' | '';
  if (found !== '') return kind.toLowerCase() === 'm' ? `m${found}` : found;
  return convertible(unit, 'N') ? 'force' : 'other';
}

function freeName(name: string, taken: Set<string>): string {
  let free = name;
  for (let n = 2; taken.has(free); n++) free = `${name.slice(0, longestName - 5)} ${n}`;
  taken.add(free);
  return free;
}

/**
 * A description that reads this stream, for a person to look at.
 *
 * @param host where it was asked for, if it was: it is sought there again
 */
export function describeStream(
  info: StreamInfo,
  host?: { readonly host: string; readonly port?: number },
): SourceDescription {
  const { name, type, sourceId, rate } = info;
  const labels = info.channels.map(({ label }) => label);
  return {
    schema: 'sthene.source/1',
    name: name.slice(0, longestName) || 'Stream',
    transport: {
      kind: 'stream',
      ...(name === '' ? {} : { name }),
      ...(type === '' ? {} : { type }),
      ...(sourceId === '' ? {} : { sourceId }),
      ...host,
      ...(labels.length > 0 && labels.every((label) => label !== '') ? { labels } : {}),
    },
    channels: channelsOfStream(info),
    rate: rate > 0 ? rate : 1000,
  };
}

/** Why a stream is nothing a rig can measure with, in words; undefined: it is. */
export function unusable({ format, rate, channelCount }: StreamInfo): string | undefined {
  if (format === 'string') return 'It holds texts, not numbers.';
  if (rate < 1) return 'It promises no rate: its samples come when they come.';
  if (channelCount > 256) return 'It has more than 256 channels.';
  return undefined;
}
