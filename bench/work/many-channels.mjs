import { readFileSync } from 'node:fs';

/** A recording of float64 channels that lie one after the other in a file. */
export function recordingFrom(path, count, sampleRate) {
  const all = new Float64Array(new Uint8Array(readFileSync(path)).buffer);
  const sampleCount = all.length / count;
  return {
    sampleRate,
    rateOrigin: 'declared',
    sampleCount,
    channels: Array.from({ length: count }, (_, c) => ({
      name: `Cell ${c + 1}`,
      unit: 'N',
      raw: all.slice(c * sampleCount, (c + 1) * sampleCount),
      scale: 1,
      offset: 0,
    })),
    platforms: [],
    gaps: [],
    events: [],
    facts: {},
    notices: [],
  };
}

/** Largest difference of physical values between two recordings; throws where their shapes differ. */
export function largestDifference(one, other) {
  if (one.sampleCount !== other.sampleCount || one.channels.length !== other.channels.length)
    throw new Error('The recording came back with another shape.');
  let largest = 0;
  one.channels.forEach((channel, c) => {
    const { raw, scale, offset } = other.channels[c];
    for (let n = 0; n < one.sampleCount; n++)
      largest = Math.max(largest, Math.abs(channel.raw[n] - (raw[n] - offset) * scale));
  });
  return largest;
}

/** The middle value; of an even number the mean of the middle two. */
export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}
