import type { TrialContext } from '../../analysis/trial-context.ts';
import type { Outcome } from '../../outcome.ts';
import { valueAt } from '../../signal/index.ts';
import { bodyMass, found, later, none, refusal, refusalWithPeak } from '../measuring.ts';
import type { Measured, MetricDefinition } from '../metric.ts';
import { forceTimes, timePointSource } from '../times.ts';

type Kind = 'gross' | 'net' | 'relative' | 'share';

/** A number the kind needs beside the force: body weight or body mass; 0 where it needs none. */
function divisor(trial: TrialContext, kind: Kind): Outcome<number> {
  if (kind === 'gross') return { ok: true, value: 0 };
  if (kind === 'relative') return bodyMass(trial);
  return trial.bodyWeight.ok ? { ok: true, value: trial.bodyWeight.value.value } : trial.bodyWeight;
}

function forceAt(trial: TrialContext, milliseconds: number, kind: Kind): Measured {
  if (!trial.onset.ok) return none(trial.onset.reason);
  const other = divisor(trial, kind);
  if (!other.ok) return none(other.reason);
  const at = later(trial, trial.onset.value.index, milliseconds);
  const refused = kind === 'share' ? refusalWithPeak(trial, at, at) : refusal(trial, at, at);
  if (refused) return none(refused);

  const force = valueAt(trial.forces.total, at);
  const { peak } = trial.events;
  const { unit } = trial.forces;
  const reading = { name: `force at ${milliseconds} ms`, value: force, unit };
  const here = { at, force, of: 'total' } as const;
  const interval = { start: at, end: at };
  const weight = { name: 'body weight', value: other.value, unit };
  switch (kind) {
    case 'gross':
      return found(trial, force, 'N', { interval, points: [here], terms: [reading] });
    case 'net':
      return found(trial, force - other.value, 'N', { interval, points: [here], terms: [reading, weight] });
    case 'relative': {
      const mass = { name: 'body mass', value: other.value, unit: 'kg' };
      return found(trial, force / other.value, 'N/kg', { interval, points: [here], terms: [reading, mass] });
    }
    case 'share':
      return found(trial, (100 * (force - other.value)) / (peak.force - other.value), '%', {
        interval,
        points: [here, { at: peak.index, force: peak.force, of: 'total' }],
        terms: [reading, { name: 'peak force', value: peak.force, unit }, weight],
      });
  }
}

const define = (
  milliseconds: number,
  kind: Kind,
  id: string,
  unit: string,
  title: string,
  formula: string,
): MetricDefinition => ({
  id,
  version: 1,
  unit,
  title,
  formula,
  source: timePointSource,
  dependsOnOnset: true,
  better: 'higher',
  rate: true,
  compute: (trial) => forceAt(trial, milliseconds, kind),
});

/** Force at fixed times after the onset: gross, net, per kilogram, and as a share of the peak. */
export const forceAtTimeMetrics: readonly MetricDefinition[] = [
  ...forceTimes.map((t) => define(t, 'gross', `force_at_${t}`, 'N', `Force at ${t} ms`, `F(o + ${t} ms)`)),
  ...forceTimes.map((t) => define(t, 'net', `force_net_at_${t}`, 'N', `Net force at ${t} ms`, `F(o + ${t} ms) - W`)),
  ...forceTimes.map((t) =>
    define(t, 'relative', `force_at_${t}_relative`, 'N/kg', `Force at ${t} ms per kg`, `F(o + ${t} ms) / (W / g)`),
  ),
  ...forceTimes.map((t) =>
    define(t, 'share', `force_share_at_${t}`, '%', `Share of peak at ${t} ms`, `100 (F(o + ${t} ms) - W) / (F_p - W)`),
  ),
];
