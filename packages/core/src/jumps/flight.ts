import type { Forces } from '../recording/forces.ts';
import type { SampleSpan } from '../recording/sample.ts';
import { indexOfLargest, meanOf, samplesIn, sdOf } from '../signal/index.ts';
import type { FlightThreshold } from './events.ts';
import type { FlightRule } from './method/jump-method.ts';

/** Known rules of take-off and touchdown; a fixed one has its newtons. */
export const flightRules: Readonly<Record<string, { readonly version: number; readonly newtons?: number }>> = {
  'five-sd-of-flight': { version: 1 },
  'fixed-10': { version: 1, newtons: 10 },
  'fixed-20': { version: 1, newtons: 20 },
  'fixed-30': { version: 1, newtons: 30 },
};

/** Take-off and touchdown of one flight: whole samples, and the interpolated crossings beside them. */
export interface Flight {
  readonly takeOff: number;
  readonly touchdown: number;
  readonly takeOffExact: number;
  readonly touchdownExact: number;
}

/** What the plates read in the middle of a flight, whatever the rule that tells ground from air. */
export type FlightRest = Omit<FlightThreshold, 'rule' | 'value'>;

/**
 * The rest in the middle of a flight that a first pass found at samples [start, end): mean and SD (n - 1) of the force over its middle
 * 300 ms (the middle 60 % of one shorter than that). A mean beyond the limit of `rezero` is a drifted zero: it is named in `zeroOffset`.
 */
export function flightRest(force: Float64Array, rate: number, flight: SampleSpan, rule: FlightRule): FlightRest {
  const window = middleOf(flight, rate, rule);
  const flightMean = meanOf(force, window.start, window.end);
  const flightSd = sdOf(force, window.start, window.end);
  const zeroOffset = Math.abs(flightMean) > rule.rezero ? flightMean : 0;
  return { window, flightMean, flightSd, zeroOffset };
}

/**
 * The threshold of a flight from its rest.
 *
 * Rule `five-sd-of-flight`: mean + 5 SD of the rest, for forces from which a drifted zero has been taken off. Plates that give exactly
 * nothing in flight have no SD: the value is never under `least`.
 *
 * Source: rule as in the open table of PMC9750644; the 300 ms from memory (McMahon et al. 2018; Lake et al. 2018, J Appl Biomech
 * 34:410-413). The share for short flights and the re-zeroing are proposals of this program.
 */
export function thresholdBy(rest: FlightRest, rule: FlightRule): FlightThreshold {
  const newtons = flightRules[rule.rule]?.newtons;
  const measured = Math.max(rule.least, rest.flightMean - rest.zeroOffset + 5 * rest.flightSd);
  return { rule: rule.rule, ...rest, value: newtons ?? measured };
}

/** The threshold of a flight that a first pass found at samples [start, end), all below the first threshold. */
export const flightThreshold = (
  force: Float64Array,
  rate: number,
  flight: SampleSpan,
  rule: FlightRule,
): FlightThreshold => thresholdBy(flightRest(force, rate, flight, rule), rule);

function middleOf({ start, end }: SampleSpan, rate: number, { middle, middleShare }: FlightRule): SampleSpan {
  const length = end - start;
  const wanted = samplesIn(middle, rate);
  const width = Math.max(2, Math.min(length, length >= wanted ? wanted : samplesIn(middleShare, length)));
  const from = start + Math.floor((length - width) / 2);
  return { start: from, end: from + width };
}

/**
 * Take-off and touchdown by a threshold: take-off is the first sample below it after the peak of the push from which the force
 * stays below for the least time; touchdown the first sample above it after the middle of the flight.
 *
 * @param flight samples of the first pass
 * @param from first sample of the push
 * @param until end of the samples that may be looked at
 * @returns undefined when the force does not stay below the threshold, or never comes back above it
 */
export function flightEvents(
  { total: force, sampleRate }: Pick<Forces, 'total' | 'sampleRate'>,
  flight: SampleSpan,
  threshold: number,
  leastTime: number,
  from: number,
  until: number,
): Flight | undefined {
  const middle = Math.floor((flight.start + flight.end) / 2);
  const least = samplesIn(leastTime, sampleRate);
  let takeOff = -1;
  let below = 0;
  for (let i = indexOfLargest(force, from, flight.start + 1) + 1; i < until; i++) {
    below = (force[i] as number) < threshold ? below + 1 : 0;
    if (below >= least) {
      takeOff = i - below + 1;
      break;
    }
    if (below === 0 && i > middle) break;
  }
  if (takeOff < 1) return undefined;
  let touchdown = Math.max(middle, takeOff + 1);
  while (touchdown < until && !((force[touchdown] as number) > threshold)) touchdown++;
  if (touchdown >= until) return undefined;
  return {
    takeOff,
    touchdown,
    takeOffExact: crossing(force, takeOff, threshold),
    touchdownExact: crossing(force, touchdown, threshold),
  };
}

/** Where the straight line from the sample before to this one meets the threshold. */
export function crossing(force: Float64Array, index: number, threshold: number): number {
  const before = force[index - 1];
  const here = force[index] as number;
  if (before === undefined || before === here) return index;
  const share = (threshold - before) / (here - before);
  return share >= 0 && share <= 1 ? index - 1 + share : index;
}
