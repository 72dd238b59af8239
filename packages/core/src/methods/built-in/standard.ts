import type { CheckChoice, Method } from '../method.ts';
import { deepFreeze } from './freeze.ts';
import { standardMetrics } from './standard-metrics.ts';

/**
 * Checks and limits, written out for the same reason as the metrics. Most limits have no published number: they are proposals,
 * scored against simulated pulls whose truth is known.
 */
const checks: Readonly<Record<string, CheckChoice>> = {
  quiet_baseline: { version: 1, limits: { warn: 12, warnShareOfWeight: 0.01, fail: 18, failShareOfWeight: 0.02 } },
  steady_before: { version: 1, limits: { warn: 30, fail: 50 } },
  pretension: { version: 1, limits: { warn: 30, fail: 50 } },
  rest_before: { version: 1, limits: { warn: 25 } },
  stepped_start: { version: 1, limits: { warn: 5, fail: 1 } },
  countermovement: { version: 1, limits: { warn: 20, fail: 50 } },
  onset_agreement: { version: 1, limits: { warn: 0.1 } },
  stepped_rise: { version: 1, limits: { warn: 0.03 } },
  double_pull: { version: 1, limits: { warn: 20 } },
  sustained_effort: { version: 1, limits: {} },
  peak_at_end: { version: 1, limits: { warn: 3 } },
  spike: { version: 1, limits: { warnSds: 5, warnShareOfPeak: 0.03 } },
  early_pull: { version: 1, limits: { warn: 0.1 } },
  clipping: { version: 1, limits: { fail: 0, shareOfRange: 0.995, run: 3 } },
  gap: { version: 1, limits: { warn: 0, fail: 0 } },
  lift_off: { version: 1, limits: { fail: 20 } },
  other_foot: { version: 1, limits: { fail: 20 } },
  zero_after: { version: 1, limits: { warn: 5, fail: 15, failShareOfPeak: 0.005 } },
  noise_for_rfd: { version: 1, limits: { warn: 5 } },
  sample_rate: { version: 1, limits: { warn: 1000, fail: 500 } },
};

/** The default method: no filter, onset where the force leaves the line it followed before the rise, mean of all trials that count. */
export const standard: Method = deepFreeze({
  schema: 'sthene.method/1',
  name: 'Sthene standard',
  version: 1,
  summary:
    'Unfiltered force, onset where the force leaves the straight line it followed before the rise, mean of all trials that count.',
  onset: { rule: 'local-line', version: 1 },
  window: { baseline: 1, anchor: 0.25, search: 3, clearance: 0.1 },
  metrics: standardMetrics,
  checks,
  set: { summary: 'mean-all', agreement: 250, closesAfter: 5 },
  allometricExponent: 2 / 3,
});
