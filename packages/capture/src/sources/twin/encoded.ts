import type { Run } from '../codec/run.ts';

/** An encoded value is index * 16 + channel: any loss, doubling, swap or mixed channel shows in the data alone. */
export const encodedStride = 16;

/** A run of encoded samples as a device would send it, with its counter. */
export function encodedRun(first: number, count: number, channels: number, counter?: number): Run {
  const values = new Float64Array(count * channels);
  for (let i = 0; i < count; i++) {
    for (let c = 0; c < channels; c++) values[i * channels + c] = (first + i) * encodedStride + c;
  }
  return { count, values, ...(counter === undefined ? {} : { counter }) };
}

/** Which sample of which channel an encoded value is. */
export const decodedValue = (value: number): { index: number; channel: number } => ({
  index: Math.floor(value / encodedStride),
  channel: value % encodedStride,
});
