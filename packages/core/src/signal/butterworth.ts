import { roundHalfUp } from './rounding.ts';

/** One second-order section: y = (b0 + b1 z^-1 + b2 z^-2) / (1 + a1 z^-1 + a2 z^-2) x. Gain 1 at 0 Hz. */
export interface SecondOrderSection {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
}

/**
 * Second-order Butterworth low-pass for `passes` runs of the same section.
 *
 * The correction C = (2^(1/passes) - 1)^(1/4) is applied on the pre-warped axis, w = tan(pi fc / fs) / C, so that all passes
 * together have the gain 1/sqrt(2) at fc.
 *
 * @param cutoff net -3 dB frequency, Hz; between 0 and half the rate, exclusive
 * @throws RangeError when the cut-off is not below half the rate
 * Source: Winter, Biomechanics and Motor Control of Human Movement, 4th ed., p. 69; Robertson et al., Research Methods in
 * Biomechanics, 2nd ed., p. 288.
 */
export function butterworthLowPass(cutoff: number, sampleRate: number, passes: number): SecondOrderSection {
  if (!(cutoff > 0 && cutoff < sampleRate / 2)) {
    throw new RangeError(`A cut-off of ${cutoff} Hz needs a rate above twice that; the rate is ${sampleRate} Hz.`);
  }
  const correction = (2 ** (1 / passes) - 1) ** 0.25;
  const w = Math.tan((Math.PI * cutoff) / sampleRate) / correction;
  const w2 = w * w;
  const scale = 1 / (1 + Math.SQRT2 * w + w2);
  const b0 = w2 * scale;
  return { b0, b1: 2 * b0, b2: b0, a1: 2 * (w2 - 1) * scale, a2: (1 - Math.SQRT2 * w + w2) * scale };
}

/**
 * Runs a section forward and then backward over the samples [start, end) of `input` and writes them to the same places of
 * `output`: no phase shift.
 *
 * The piece is extended at both ends by `padding` samples, point-mirrored about its end values (2 x(0) - x(k)), and each run
 * starts in the steady state of its first value, so a constant stays constant and a level start does not ring.
 *
 * @param padding samples, at most end - start - 1
 */
export function filterForwardBackward(
  section: SecondOrderSection,
  input: Float64Array,
  output: Float64Array,
  start: number,
  end: number,
  padding: number,
): void {
  const count = end - start;
  if (count === 0) return;
  if (!(padding >= 0 && padding < count)) throw new RangeError(`Padding of ${padding} does not fit ${count} samples.`);
  const work = new Float64Array(count + 2 * padding);
  const first = input[start] as number;
  const last = input[end - 1] as number;
  for (let k = 0; k < padding; k++) {
    work[k] = 2 * first - (input[start + padding - k] as number);
    work[padding + count + k] = 2 * last - (input[end - 2 - k] as number);
  }
  work.set(input.subarray(start, end), padding);
  run(section, work, 0, 1);
  run(section, work, work.length - 1, -1);
  output.set(work.subarray(padding, padding + count), start);
}

/**
 * Zero-lag Butterworth low-pass: one second-order section forward and back, cut-off corrected for the two passes, extension
 * of 1 s or the piece's length - 1, whichever is shorter. Samples outside the pieces are copied.
 *
 * @param input samples at `sampleRate`, N or another unit; not changed
 * @param cutoff net -3 dB frequency of both passes, Hz
 * @param pieces gap-free pieces, each filtered by itself
 * @returns new samples of the same length
 * @throws RangeError when the cut-off is not below half the rate
 */
export function zeroLagLowPass(
  input: Float64Array,
  sampleRate: number,
  cutoff: number,
  pieces: readonly { readonly start: number; readonly end: number }[] = [{ start: 0, end: input.length }],
): Float64Array {
  const section = butterworthLowPass(cutoff, sampleRate, 2);
  const output = input.slice();
  for (const { start, end } of pieces) {
    filterForwardBackward(section, input, output, start, end, Math.min(roundHalfUp(sampleRate), end - start - 1));
  }
  return output;
}

/** One pass in place (transposed direct form II), from `from` in steps of `step`, started in the steady state. */
function run({ b0, b1, b2, a1, a2 }: SecondOrderSection, work: Float64Array, from: number, step: 1 | -1): void {
  const origin = work[from] as number;
  // Filtering x - x(first) from rest equals starting in the steady state of x(first), and keeps a constant exact.
  let z1 = 0;
  let z2 = 0;
  for (let n = 0, i = from; n < work.length; n++, i += step) {
    const x = (work[i] as number) - origin;
    const y = b0 * x + z1;
    z1 = b1 * x - a1 * y + z2;
    z2 = b2 * x - a2 * y;
    work[i] = y + origin;
  }
}
