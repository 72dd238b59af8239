import { type Registry, registry } from '../registry.ts';
import { asymmetryMetrics } from './asymmetry/asymmetry.ts';
import { bestMeanMetrics } from './best-mean/best-mean.ts';
import { bodyWeightMetrics } from './body-weight/body-weight.ts';
import { forceAtOnsetMetric } from './force-at-onset/force-at-onset.ts';
import { forceAtTimeMetrics } from './force-at-time/force-at-time.ts';
import { forceLossMetric } from './force-loss/force-loss.ts';
import { impulseMetrics } from './impulse/impulse.ts';
import type { MetricDefinition } from './metric.ts';
import { peakForceMetrics } from './peak-force/peak-force.ts';
import { rfd2080Metric } from './rfd-20-80/rfd-20-80.ts';
import { rfdAverageMetric } from './rfd-average/rfd-average.ts';
import { rfdIntervalMetrics } from './rfd-interval/rfd-interval.ts';
import { rfdPeakMetrics } from './rfd-peak/rfd-peak.ts';
import { rfdRelativeMetric } from './rfd-relative/rfd-relative.ts';
import { sideForceAtPeakMetrics } from './side-force-at-peak/side-force-at-peak.ts';
import { sideForceAtTimeMetrics } from './side-force-at-time/side-force-at-time.ts';
import { sideImpulseMetrics } from './side-impulse/side-impulse.ts';
import { sidePeakForceMetrics } from './side-peak-force/side-peak-force.ts';
import { standingShareMetric } from './standing-share/standing-share.ts';
import { timeToPeakMetric } from './time-to-peak/time-to-peak.ts';

export * from './metric.ts';

/** Every released metric of an isometric trial, in the order they are listed to people. */
export const metricRegistry: Registry<MetricDefinition> = registry('metric', [
  ...bodyWeightMetrics,
  ...peakForceMetrics,
  ...bestMeanMetrics,
  timeToPeakMetric,
  forceAtOnsetMetric,
  ...forceAtTimeMetrics,
  ...rfdIntervalMetrics,
  ...rfdPeakMetrics,
  rfdAverageMetric,
  rfd2080Metric,
  ...impulseMetrics,
  rfdRelativeMetric,
  forceLossMetric,
  ...sideForceAtPeakMetrics,
  ...sidePeakForceMetrics,
  ...sideForceAtTimeMetrics,
  ...sideImpulseMetrics,
  ...asymmetryMetrics,
  standingShareMetric,
]);
export { asymmetry as asymmetryOf } from './measuring.ts';
