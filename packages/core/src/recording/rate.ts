import type { Outcome } from '../outcome.ts';
import { have, lack } from '../outcome.ts';
import type { Notice } from './notice.ts';
import type { RateOrigin } from './recording.ts';

/** A rate read from a time column, with what was measured. */
export interface MeasuredRate {
  /** Hz; what the recording uses. */
  readonly sampleRate: number;
  /** Hz; (N - 1) / (t_last - t_first). */
  readonly measuredRate: number;
  readonly rateOrigin: RateOrigin;
  /** Set when the measured rate is used as it is, or contradicts a declared one. */
  readonly notices: readonly Notice[];
}

/** A rate within this share of a declared or whole one is taken for it: 0.05 %. */
const snap = 0.0005;

/**
 * Sample rate of a time column: (N - 1) / (t_last - t_first), snapped to the declared rate, or else to the nearest whole hertz,
 * when within 0.05 %; otherwise as measured, with a notice.
 *
 * @param count N, the number of samples on the grid between and including both times
 * @param first time of the first sample, s
 * @param last time of the last sample, s
 * @param declared rate the source names, Hz
 * @returns `recording-too-short` for fewer than two samples or times that do not rise
 */
export function rateOfTimes(count: number, first: number, last: number, declared?: number): Outcome<MeasuredRate> {
  const measuredRate = (count - 1) / (last - first);
  if (!(count >= 2 && measuredRate > 0 && Number.isFinite(measuredRate))) return lack('recording-too-short');
  const near = (rate: number) => rate > 0 && Math.abs(measuredRate - rate) <= snap * rate;
  const snapped = (sampleRate: number, notices: readonly Notice[]): Outcome<MeasuredRate> =>
    have({ sampleRate, measuredRate, rateOrigin: 'time-column-snapped', notices });
  if (declared !== undefined && near(declared)) return snapped(declared, []);
  const notices: Notice[] = [];
  if (declared !== undefined) {
    notices.push({
      code: 'rate-not-as-declared',
      message: `The file declares ${declared} Hz, its times give ${measuredRate.toPrecision(7)} Hz; the times are used.`,
    });
  }
  const whole = Math.floor(measuredRate + 0.5);
  if (near(whole)) return snapped(whole, notices);
  notices.push({
    code: 'rate-measured',
    message: `The times give ${measuredRate.toPrecision(7)} Hz, which is no whole rate; it is used as measured.`,
  });
  return have({ sampleRate: measuredRate, measuredRate, rateOrigin: 'time-column', notices });
}
