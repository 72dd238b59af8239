import type { Onset } from '../../analysis/events.ts';
import type { Outcome } from '../../outcome.ts';
import { have, lack } from '../../outcome.ts';
import { centredMean, lineThrough, samplesIn, touchesGap } from '../../signal/index.ts';
import type { OnsetInput, OnsetRule } from '../rule.ts';

/** Half of the span over which the force is averaged, s. */
const halfSpan = 0.005;
/** Least distance of the fitted piece from the start of the rise, s; a rise that takes longer from q to r keeps that time. */
const lead = 0.25;
/** Length of the fitted piece, s. */
const fitted = 0.25;
/**
 * How many residual SDs above the line count as leaving it. Seen backward from the rise, a sample above the line by chance only
 * matters right beside the rise, so fewer than the published five do.
 */
const sds = 4;
/** Least distance above the line in tests with body weight, N. */
const least = 5;

function find({ forces, span, baseline, halfLevel, halfRise, riseStart, weighted }: OnsetInput): Outcome<Onset> {
  if (!riseStart.ok) return riseStart;
  const { sampleRate, total } = forces;
  const h = samplesIn(halfSpan, sampleRate);
  const length = samplesIn(fitted, sampleRate);
  if (length < 3) return lack('window-too-short');
  const end = riseStart.value - Math.max(samplesIn(lead, sampleRate), halfRise - riseStart.value);
  const start = end - length;
  if (start - h < span.start) return lack('onset-not-found');
  const last = Math.min(halfRise, span.end - 1 - h);
  if (touchesGap(forces, start - h, last + h)) return lack('gap-in-interval');
  const means = centredMean(total, 2 * h + 1, start, last + 1);
  const line = lineThrough(means, 0, length);
  const above = Math.max(sds * line.sd, weighted && forces.unit === 'N' ? least : 0);
  const thresholdAt = (i: number) => line.start + line.slope * (i - start) + above;
  if (thresholdAt(last) >= halfLevel) return lack('threshold-too-high');
  let j = last;
  while (j >= end && (means[j - start] as number) > thresholdAt(j)) j--;
  if (j < end) return lack('onset-not-found');
  return have({
    index: j + 1,
    rule: 'local-line',
    threshold: thresholdAt(j + 1),
    thresholdUnit: forces.unit,
    baseline,
    search: { start: end, end: last + 1 },
  });
}

/** Onset where the force leaves the straight line it followed right before the rise; the default. */
export const localLine: OnsetRule = {
  id: 'local-line',
  version: 1,
  title: 'Leaves the line before the rise',
  definition:
    'G_i = mean of F over i-h ... i+h, h = round(5 ms fs). A line is fitted by least squares to G over the round(250 ms fs) samples before u = q - max(round(250 ms fs), r - q); s is the SD of its residuals (n - 2). The sample after the last one, seen backward from the half rise and not before u, with G <= line + max(4 s, 5 N). In a test without body weight the 5 N are dropped.',
  source:
    'Definition and numbers of this program, scored against simulated pulls of known onset (docs/reference/truth-table.md)',
  automatic: true,
  find,
};
