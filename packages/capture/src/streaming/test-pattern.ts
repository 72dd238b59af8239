import type { SampleEncoding, StreamSample } from './sample-bytes.ts';

/** The time both patterns carry, s. */
export const patternTime = 123_456.789;
/** What the values of the first and the second pattern begin with (from memory). */
export const patternOffsets = [4, 2] as const;

/** What is added to the values of each format so that every byte of them is in use (from memory). */
const base: Readonly<Record<SampleEncoding['format'], number>> = {
  float32: 0,
  double64: 16_777_217,
  string: 10,
  int32: 65_537,
  int16: 257,
  int8: 1,
  int64: 2_147_483_649,
};

/** Largest value of a whole-number format; a pattern begins anew there (from memory). */
const turn: Partial<Readonly<Record<SampleEncoding['format'], number>>> = {
  int32: 2_147_483_647,
  int16: 32_767,
  int8: 127,
};

/**
 * A sample by which a receiver sees that it reads as the sender writes: channel k holds (k + offset + base) with the signs +, -, +, ...
 * Texts hold the number without the offset. The signs and the values of 32-bit floats at offset 0 are documented, (0, -1); the rest is from
 * memory.
 */
export function testPattern(
  { format, channels }: Pick<SampleEncoding, 'format' | 'channels'>,
  offset: number,
): StreamSample {
  const values = Array.from({ length: channels }, (_, k) => {
    const plain = k + base[format] + (format === 'string' ? 0 : offset);
    const value = turn[format] === undefined ? plain : plain % (turn[format] ?? 1);
    const signed = k % 2 === 0 ? value : -value;
    return format === 'string' ? String(signed) : signed;
  });
  return { time: patternTime, values };
}
