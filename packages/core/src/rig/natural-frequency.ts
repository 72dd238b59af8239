import { have, lack, type Outcome } from '../outcome.ts';
import { indexOfLargest, type Samples } from '../signal/index.ts';
import { amplitudeAt } from './at-rest.ts';

/** What a tap made a plate ring at. */
export interface TapFigures {
  /** Hz. */
  readonly frequency: number;
  /** Width of one step of the spectrum, Hz: what the frequency may be off without interpolation. */
  readonly resolution: number;
  /** Amplitude of the line over the median of the spectrum. */
  readonly prominence: number;
}

/** Free ringing that is looked at after the tap, s. */
const ringing = 0.5;
/** From here on a line is one; default of this project. */
const leastProminence = 4;
/** Frequencies below this are the person or the floor, Hz. */
const lowest = 10;

/**
 * Natural frequency of a plate from the free ringing after a tap with a hard object: the highest line of the spectrum from the
 * fastest change of the force on, between 10 Hz and half of the rate, refined by a parabola through the line and its neighbours.
 *
 * @param samples force of the plate, N, with one tap
 * @param rate Hz
 * @returns `recording-too-short` where under a tenth of a second follows the tap, `no-fit` where no line stands out
 */
export function tapFigures(samples: Samples, rate: number): Outcome<TapFigures> {
  const tap = tapAt(samples);
  const n = Math.min(samples.length - tap, Math.round(ringing * rate));
  if (n < 0.1 * rate) return lack('recording-too-short');
  const piece = Float64Array.from({ length: n }, (_, i) => samples[tap + i] as number);
  const step = rate / n;
  const first = Math.ceil(lowest / step);
  const count = Math.ceil(n / 2) - first;
  if (count < 3) return lack('recording-too-short');
  const spectrum = Float64Array.from({ length: count }, (_, k) => amplitudeAt(piece, (first + k) * step, rate));
  const top = indexOfLargest(spectrum);
  const median = Float64Array.from(spectrum).sort()[count >> 1] as number;
  const prominence = (spectrum[top] as number) / median;
  // A constant piece has no spectrum at all.
  if (!(prominence >= leastProminence)) return lack('no-fit');
  return have({ frequency: (first + top + shiftOf(spectrum, top)) * step, resolution: step, prominence });
}

/** Where the force changes most from one sample to the next: masses that come or go are slower than any tap. */
function tapAt(samples: Samples): number {
  return indexOfLargest(
    Float64Array.from({ length: samples.length }, (_, i) =>
      i === 0 ? 0 : Math.abs((samples[i] as number) - (samples[i - 1] as number)),
    ),
  );
}

/** Where the top of a parabola through a line and its neighbours lies, in steps from the line. */
function shiftOf(spectrum: Float64Array, top: number): number {
  const [before, at, after] = [spectrum[top - 1], spectrum[top], spectrum[top + 1]];
  if (before === undefined || at === undefined || after === undefined) return 0;
  const curve = before - 2 * at + after;
  return curve === 0 ? 0 : (0.5 * (before - after)) / curve;
}
