import type { Onset } from '../analysis/events.ts';
import { have, lack, type Outcome } from '../outcome.ts';
import type { JumpKind } from '../protocols/protocol.ts';
import type { Forces } from '../recording/forces.ts';
import { type Registry, registry } from '../registry.ts';
import { samplesIn, touchesGap } from '../signal/index.ts';
import type { WeighingWindow } from './events.ts';

/** What an onset rule of a jump may look at. */
export interface JumpOnsetInput {
  readonly forces: Forces;
  readonly kind: JumpKind;
  readonly weighing: WeighingWindow;
  /** SD of the unloaded plates in flight, N. */
  readonly flightSd: number;
  readonly takeOff: number;
}

/** A released rule for the beginning of a jump. Never edited. */
export interface JumpOnsetRule {
  readonly id: string;
  readonly version: number;
  readonly title: string;
  readonly definition: string;
  readonly source: string;
  readonly find: (input: JumpOnsetInput) => Outcome<Onset>;
}

const owen = 'Owen et al. 2014, J Strength Cond Res 28(6):1552-1558';

/** Five SD of the weighing window; on noisy plates (unloaded SD over 2 N) at least 10 N. */
const fiveSd = ({ weighing, flightSd }: JumpOnsetInput): number => {
  const d = 5 * weighing.sd;
  return d < 10 && flightSd > 2 ? 10 : d;
};

const percent =
  (share: number) =>
  ({ weighing }: JumpOnsetInput): number =>
    (share / 100) * weighing.mean;

/**
 * The first sample after the weighing window that leaves W by more than d (in a squat jump: that rises above W + d), and a step
 * back from it that never crosses another sample beyond d.
 */
function search(id: string, input: JumpOnsetInput, d: number, back: number): Outcome<Onset> {
  const { forces, kind, weighing, takeOff } = input;
  if (touchesGap(forces, weighing.start, takeOff)) return lack('gap-in-interval');
  const force = forces.total;
  const leaves = (i: number): boolean => {
    const difference = (force[i] as number) - weighing.mean;
    return kind === 'squat' ? difference > d : Math.abs(difference) > d;
  };
  let first = weighing.end;
  while (first < takeOff && !leaves(first)) first++;
  if (first >= takeOff) return lack('onset-not-found');
  let index = first;
  const earliest = Math.max(weighing.start, first - samplesIn(back, forces.sampleRate));
  while (index > earliest && Math.abs((force[index - 1] as number) - weighing.mean) <= d) index--;
  return have({
    index,
    rule: id,
    threshold: (force[first] as number) < weighing.mean ? weighing.mean - d : weighing.mean + d,
    thresholdUnit: forces.unit,
    baseline: { start: weighing.start, end: weighing.end, mean: weighing.mean, sd: weighing.sd },
    search: { start: weighing.end, end: takeOff },
  });
}

/** How far the criterion rule steps back, s. */
const criterionBack = 0.03;

/**
 * The onset of the criterion rule with another number of SDs, for the timing part of an uncertainty.
 *
 * @param sds in place of the five
 */
export const onsetAtSds = (input: JumpOnsetInput, sds: number): Outcome<Onset> =>
  search('jump-five-sd-back-30', input, (fiveSd(input) * sds) / 5, criterionBack);

const rule = (
  id: string,
  title: string,
  definition: string,
  source: string,
  distance: (input: JumpOnsetInput) => number,
  back: number,
): JumpOnsetRule => ({
  id,
  version: 1,
  title,
  definition,
  source,
  find: (input) => search(id, input, distance(input), back),
});

const squat = 'In a squat jump only a rise above W + d counts.';

/** Rules for the beginning of a jump from standing, the criterion first. All enter the spread. */
export const jumpOnsetRules: Registry<JumpOnsetRule> = registry('jump onset rule', [
  rule(
    'jump-five-sd-back-30',
    'W within 5 SD, and 30 ms back',
    `The first sample after the weighing window with |F - W| > d, d = 5 SD_w, and 30 ms back from it, never past another sample beyond d. Where the plates' own SD in flight is over 2 N, d is at least 10 N. ${squat}`,
    `${owen}; a rise only in squat jumps: Sports 2022;10(12):193; the floor of 10 N is a proposal`,
    fiveSd,
    criterionBack,
  ),
  rule(
    'jump-five-sd',
    'W within 5 SD',
    `The first sample after the weighing window with |F - W| > d, d as above, without a step back. ${squat}`,
    'Sports 2022;10(12):193, doi 10.3390/sports10120193 (compared there)',
    fiveSd,
    0,
  ),
  rule(
    'jump-percent-weight-2.5',
    'W within 2.5 %',
    `The first sample after the weighing window with |F - W| > 2.5 % of W. ${squat}`,
    'Meylan et al., as reported in Sports 2022;10:193',
    percent(2.5),
    0,
  ),
  rule(
    'jump-percent-weight-5',
    'W within 5 %',
    `The first sample after the weighing window with |F - W| > 5 % of W. ${squat}`,
    'Meylan et al., as reported in Sports 2022;10:193',
    percent(5),
    0,
  ),
]);
