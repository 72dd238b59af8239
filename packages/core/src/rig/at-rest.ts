import { have, lack, type Outcome } from '../outcome.ts';
import { meanOf, type Samples, sdOf } from '../signal/index.ts';

/** Frequencies of public mains, Hz. */
export const mainsFrequencies = [50, 60] as const;

/** An unloaded plate over a while. */
export interface RestFigures {
  /** N. */
  readonly mean: number;
  /** SD of single samples, N. */
  readonly noise: number;
  /** Amplitude at each mains frequency the rate can tell, N. */
  readonly mains: readonly { readonly frequency: number; readonly amplitude: number }[];
  /** Change from the mean of the first to that of the last quarter, N per minute. */
  readonly drift: number;
}

/**
 * Zero, noise, mains hum and drift of an unloaded plate.
 *
 * @param samples force of the plate, N, without gaps
 * @param rate Hz
 * @returns `recording-too-short` under one second
 */
export function restFigures(samples: Samples, rate: number): Outcome<RestFigures> {
  const n = samples.length;
  if (n < rate || n < 8) return lack('recording-too-short');
  const quarter = Math.floor(n / 4);
  const minutes = (n - quarter) / rate / 60;
  return have({
    mean: meanOf(samples),
    noise: sdOf(samples),
    mains: mainsFrequencies
      .filter((frequency) => frequency < rate / 2)
      .map((frequency) => ({ frequency, amplitude: amplitudeAt(samples, frequency, rate) })),
    drift: (meanOf(samples, n - quarter) - meanOf(samples, 0, quarter)) / minutes,
  });
}

/**
 * Amplitude of one frequency, in the unit of the samples: 2/m |sum (x - mean) exp(-2 pi i f t)| over the last m samples that hold a
 * whole number of periods, so that a pure tone gives its amplitude.
 *
 * By the recurrence s[i] = x[i] + 2 cos(w) s[i-1] - s[i-2] (Goertzel 1958), which needs no sine for each sample.
 */
export function amplitudeAt(samples: Samples, frequency: number, rate: number): number {
  const periods = Math.floor((samples.length * frequency) / rate + 1e-9);
  const m = periods < 1 ? samples.length : Math.round((periods * rate) / frequency);
  const from = samples.length - m;
  const mean = meanOf(samples, from);
  const turn = (2 * Math.PI * frequency) / rate;
  const twice = 2 * Math.cos(turn);
  let [last, before] = [0, 0];
  for (let i = from; i < samples.length; i++) {
    const now = (samples[i] as number) - mean + twice * last - before;
    before = last;
    last = now;
  }
  return (2 * Math.hypot(last - before * Math.cos(turn), before * Math.sin(turn))) / m;
}

/**
 * Samples of the shortest window that holds whole periods of the mains, whose mean is therefore free of its hum: 20 at 1000 Hz for
 * 50 Hz, 50 (three periods) for 60 Hz.
 *
 * @returns `not-defined` where no window of up to a hundred periods fits the grid
 */
export function mainsWindow(rate: number, frequency: number): Outcome<number> {
  for (let periods = 1; periods <= 100; periods++) {
    const samples = (periods * rate) / frequency;
    if (Math.abs(samples - Math.round(samples)) < 1e-9) return have(Math.round(samples));
  }
  return lack('not-defined');
}

/** Smallest step of a converter, N, and the SD its rounding alone gives, step / sqrt 12. */
export function quantisation(range: number, bits: number): { readonly step: number; readonly sd: number } {
  const step = range / 2 ** bits;
  return { step, sd: step / Math.sqrt(12) };
}
