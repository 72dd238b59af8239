import type { TrialContext } from '../src/analysis/trial-context.ts';
import { sampled, type TrialOptions, trialOf } from './trial-of.ts';

/**
 * Curves with known metrics, as in the check values of the collected methods (isometric-and-statistics.md, 9.5): body weight
 * 800 N, 2000 N of net force approached from time 0, noise-free. Values there were calculated for that document in double
 * precision from these formulas.
 */
const before = 2;

/** F(t) = 800 + 2000 (1 - exp(-t / 0.1)). Its onset is given as time 0. */
export function exponentialTrial(sampleRate = 1000, options: Partial<TrialOptions> = {}): TrialContext {
  const total = sampled(sampleRate, -before, 3, (t) => 800 + (t > 0 ? 2000 * (1 - Math.exp(-t / 0.1)) : 0));
  const onset = before * sampleRate;
  return trialOf({
    sampleRate,
    total,
    baseline: { start: 0, end: sampleRate },
    // F passes half of the rise at 0.1 ln 2 s.
    halfRise: onset + Math.floor(0.1 * Math.LN2 * sampleRate),
    onset,
    weight: 800,
    ...options,
  });
}

/** F(t) = 800 + 2000 (1 - exp(-(t / 0.15)^2)); the onset is a (fractional) time in milliseconds. */
export function sigmoidTrial(onsetMilliseconds: number): TrialContext {
  // 20 kHz keeps linear interpolation between samples within 1e-4 N of the curve.
  const sampleRate = 20_000;
  const total = sampled(sampleRate, -before, 1.5, (t) => 800 + (t > 0 ? 2000 * (1 - Math.exp(-((t / 0.15) ** 2))) : 0));
  return trialOf({
    sampleRate,
    total,
    baseline: { start: 0, end: sampleRate },
    halfRise: before * sampleRate + Math.floor(0.15 * Math.sqrt(Math.LN2) * sampleRate),
    onset: (before + onsetMilliseconds / 1000) * sampleRate,
    weight: 800,
  });
}
