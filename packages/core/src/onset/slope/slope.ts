import type { Onset } from '../../analysis/events.ts';
import type { Outcome } from '../../outcome.ts';
import { have, lack } from '../../outcome.ts';
import { meanOf, samplesIn, sdOf, touchesGap } from '../../signal/index.ts';
import type { OnsetInput, OnsetRule } from '../rule.ts';

/** Half of the span over which the slope is taken, s. */
const halfSpan = 0.005;

function find({ forces, span, baseline, halfRise }: OnsetInput): Outcome<Onset> {
  const { sampleRate, total: force } = forces;
  const h = samplesIn(halfSpan, sampleRate);
  const count = baseline.end - baseline.start - 2 * h;
  if (h < 1 || count < 2) return lack('window-too-short');
  const from = Math.min(halfRise, span.end - 1 - h);
  if (touchesGap(forces, baseline.start, from + h)) return lack('gap-in-interval');
  const perSecond = sampleRate / (2 * h);
  const slopeAt = (i: number) => ((force[i + h] as number) - (force[i - h] as number)) * perSecond;
  const slopes = new Float64Array(count);
  const first = baseline.start + h;
  for (let i = 0; i < count; i++) slopes[i] = slopeAt(first + i);
  const threshold = meanOf(slopes) + 5 * sdOf(slopes);
  let j = from;
  while (j >= first && slopeAt(j) > threshold) j--;
  if (j < first) return lack('onset-not-found');
  return have({
    index: j + 1,
    rule: 'slope',
    threshold,
    thresholdUnit: `${forces.unit}/s`,
    baseline,
    search: { start: first, end: from + 1 },
  });
}

/** Onset from the steepness instead of the level of the force. */
export const slope: OnsetRule = {
  id: 'slope',
  version: 1,
  title: 'Slope above its baseline mean + 5 SD',
  definition:
    'D_i = (F(i+h) - F(i-h)) fs / (2 h), h = round(5 ms fs); the sample after the last one, seen backward from the half rise, with D <= mean + 5 SD of D over the baseline.',
  source: 'After Liu, Qu and Stone 2020, Sports Biomech (a slope rule); span and limit are proposals of ours',
  automatic: true,
  find,
};
