import type { TrialContext } from '../../analysis/trial-context.ts';
import { found, none, refusalWithPeak } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';

/**
 * Interpolated position at which the force last rises through `level` before index `before`, or undefined when it never lay
 * at or below it from index `from` on: a trial sees nothing outside its span.
 */
function lastCrossing(force: Float64Array, level: number, from: number, before: number): number | undefined {
  let i = before - 1;
  while (i >= from && (force[i] as number) > level) i--;
  if (i < from) return undefined;
  const low = force[i] as number;
  return i + (level - low) / ((force[i + 1] as number) - low);
}

function rate2080(trial: TrialContext): Measured {
  const { forces, events } = trial;
  const range = events.peak.force - events.quietLevel;
  if (!(range > 0)) return none('not-defined');
  const low = events.quietLevel + 0.2 * range;
  const high = events.quietLevel + 0.8 * range;
  let reached = events.halfRise + 1;
  while (reached < events.peak.index && (forces.total[reached] as number) < high) reached++;
  const start = lastCrossing(forces.total, low, events.span.start, reached);
  const end = lastCrossing(forces.total, high, events.span.start, reached);
  if (start === undefined || end === undefined) return none('not-defined');
  const refused = refusalWithPeak(trial, start, end);
  if (refused) return none(refused);
  const seconds = (end - start) / forces.sampleRate;
  return found(trial, (high - low) / seconds, 'N/s', {
    interval: { start, end },
    points: [
      { at: start, force: low, of: 'total' },
      { at: end, force: high, of: 'total' },
    ],
    terms: [
      { name: 'quiet level', value: events.quietLevel, unit: forces.unit },
      { name: 'peak force', value: events.peak.force, unit: forces.unit },
      { name: 'time', value: seconds, unit: 's' },
    ],
  });
}

/** Slope of the middle of the rise; stands also when no onset was found. */
export const rfd2080Metric: MetricDefinition = {
  id: 'rfd_20_80',
  version: 1,
  unit: 'N/s',
  title: 'RFD 20 to 80 % of rise',
  formula:
    '(F_80 - F_20) / (t_80 - t_20), F_x = Q + x (F_p - Q), t_x its last interpolated crossing before 80 % is reached',
  source:
    'Definition of this program; after the gradients of Zatsiorsky and Kraemer, Science and Practice of Strength Training (from memory)',
  dependsOnOnset: false,
  better: 'higher',
  rate: true,
  compute: rate2080,
};
