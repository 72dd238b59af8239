import { shared, type TrialContext } from '../../analysis/trial-context.ts';
import { found, none, refusalOfPeak, refusalWithPeak } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';
import { bandSource } from '../times.ts';

const windows = [2, 5, 10, 20, 50] as const;

/** A shorter window measures the noise of the samples rather than the athlete. */
const fewestSamples = 5;

function peakRate(trial: TrialContext, milliseconds: number): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const { forces, events } = trial;
  const onset = trial.onset.value.index;
  const width = (milliseconds * forces.sampleRate) / 1000;
  if (width < fewestSamples) return none('window-too-short');
  const from = Math.ceil(onset);
  const to = Math.floor(events.peak.index - width);
  if (from < 0 || to < from) return none('interval-past-end');
  const refused = refusalWithPeak(trial, onset, events.peak.index) ?? refusalOfPeak(trial);
  if (refused) return none(refused);

  // Onsets lie before r, so what follows r is searched once for all of them.
  const split = Math.max(from, Math.min(events.halfRise + 1, to + 1));
  const early = steepest(forces.total, width, from, split - 1);
  const late =
    split > events.halfRise + 1
      ? steepest(forces.total, width, split, to)
      : shared(trial, `rfd_peak_${milliseconds}`, () => steepest(forces.total, width, split, to));
  // The first of equals.
  const { rise: best, at } = late.rise > early.rise ? late : early;
  const force = forces.total;
  const before = force[at] as number;
  return found(trial, best / (milliseconds / 1000), 'N/s', {
    interval: { start: at, end: at + width },
    points: [
      { at, force: before, of: 'total' },
      { at: at + width, force: before + best, of: 'total' },
    ],
    terms: [
      { name: 'change of force', value: best, unit: forces.unit },
      { name: 'time', value: milliseconds / 1000, unit: 's' },
    ],
  });
}

/** Largest F(i + width) - F(i) over whole i in [from, to], the first of equals; the width may be fractional. */
function steepest(force: Float64Array, width: number, from: number, to: number): { rise: number; at: number } {
  const whole = Math.floor(width);
  const share = width - whole;
  let best = Number.NEGATIVE_INFINITY;
  let at = from;
  for (let i = from; i <= to; i++) {
    const low = force[i + whole] as number;
    const ahead = share === 0 ? low : low + share * ((force[i + whole + 1] as number) - low);
    const rise = ahead - (force[i] as number);
    if (rise > best) {
      best = rise;
      at = i;
    }
  }
  return { rise: best, at };
}

/** Steepest rise over a short sliding window. */
export const rfdPeakMetrics: readonly MetricDefinition[] = windows.map((milliseconds) => ({
  id: `rfd_peak_${milliseconds}`,
  version: 1,
  unit: 'N/s',
  title: `Peak RFD, ${milliseconds} ms window`,
  formula: `largest (F(i + ${milliseconds} ms) - F(i)) / ${milliseconds} ms for whole samples i in [o, p - ${milliseconds} ms]`,
  source: bandSource,
  dependsOnOnset: true,
  better: 'higher',
  rate: true,
  compute: (trial) => peakRate(trial, milliseconds),
}));
