import type { Channel } from './recording.ts';

/** Values of a channel in its own unit: (raw - offset) * scale. New array; NaN where a float channel misses a sample. */
export function physicalValues(channel: Channel): Float64Array {
  const { raw, offset, scale } = channel;
  const values = new Float64Array(raw.length);
  for (let i = 0; i < raw.length; i++) values[i] = ((raw[i] as number) - offset) * scale;
  return values;
}

/** Range of a channel in its own unit, smaller value first, where the source says what its converter can give. */
export function physicalRange(channel: Channel): readonly [low: number, high: number] | undefined {
  if (channel.rawRange === undefined) return undefined;
  const [a, b] = channel.rawRange.map((raw) => (raw - channel.offset) * channel.scale) as [number, number];
  return a <= b ? [a, b] : [b, a];
}
