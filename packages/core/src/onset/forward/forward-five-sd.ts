import type { Onset } from '../../analysis/events.ts';
import type { Outcome } from '../../outcome.ts';
import { have, lack } from '../../outcome.ts';
import { samplesIn, touchesGap } from '../../signal/index.ts';
import type { OnsetInput, OnsetRule } from '../rule.ts';

/** How long the force has to stay above the threshold, s. */
const hold = 0.02;

function find({ forces, span, baseline, halfLevel, halfRise }: OnsetInput): Outcome<Onset> {
  const threshold = baseline.mean + 5 * baseline.sd;
  if (touchesGap(forces, baseline.start, halfRise)) return lack('gap-in-interval');
  if (threshold >= halfLevel) return lack('threshold-too-high');
  const held = Math.max(1, samplesIn(hold, forces.sampleRate));
  const force = forces.total;
  // The rise is above the half level after r, so the onset cannot lie later than r + 1.
  let above = 0;
  const last = Math.min(halfRise + held, span.end - 1);
  for (let i = baseline.end; i <= last; i++) {
    above = (force[i] as number) > threshold ? above + 1 : 0;
    if (above < held) continue;
    const index = i - held + 1;
    const search = { start: baseline.end, end: halfRise + 2 };
    return have({ index, rule: 'forward-five-sd', threshold, thresholdUnit: forces.unit, baseline, search });
  }
  return lack('onset-not-found');
}

/** The first held crossing after the baseline: finds early bumps that a backward search passes over. */
export const forwardFiveSd: OnsetRule = {
  id: 'forward-five-sd',
  version: 1,
  title: 'First crossing of baseline + 5 SD held for 20 ms',
  definition:
    'The first sample after the baseline, and not after r + 1, from which F > B + 5 S for round(20 ms fs) samples running.',
  source:
    "Dos'Santos et al. 2017, J Strength Cond Res 31(12):3463-3473 (first sample above 5 SD); the hold is a proposal of ours",
  automatic: true,
  find,
};
