import { type SampleSpan, samplesIn } from '@sthene/core';
import { closeTrial } from '../judging/close-trial.ts';
import { forcesOfSpan } from '../judging/live-recording.ts';
import { limitsOf } from '../limits.ts';
import type { Machine } from '../machine.ts';
import { expectedBest } from '../person.ts';
import type { Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';
import type { TrialEnd } from '../trial.ts';
import { spanFrom } from './effort-span.ts';

/** Length of the window of sustained effort, s; as in the analysis. */
const anchorSeconds = 0.25;

/** Sees a pull begin. @returns true when the phase has become `pull` */
export function watchForPull(machine: Machine, turn: Turn, block: Block): boolean {
  const { attempt, rules } = machine;
  if (!(block.total.mean > limitsOf(machine).pull)) {
    delete attempt.rising;
    return false;
  }
  attempt.rising ??= block.start;
  if (block.end - attempt.rising < machine.samples(rules.pull.sustain)) return false;
  const start = attempt.rising;
  machine.voidCount('pull-began');
  const standing = machine.weighted ? machine.presence.since : 0;
  attempt.pull = { start, standing, largest: 0, below: undefined, recent: [] };
  machine.enter('pull', attempt.request === undefined ? 'without-cue' : 'after-cue');
  machine.mark('pull began', start, { turn: turn.number, trial: machine.trial });
  return true;
}

/**
 * Follows a pull to its end, as the analysis defines it but in passing: M is the largest mean of 250 ms so far, H half way between
 * body weight and M; the end is where F falls to H and stays there until the trial closes half a second later.
 */
export function pullBlock(machine: Machine, turn: Turn, block: Block): void {
  const { attempt, rules, config, base } = machine;
  const { pull } = attempt;
  if (pull === undefined) return;
  const width = block.end - block.start;
  pull.recent.push(block.total.mean);
  if (pull.recent.length > Math.max(1, Math.ceil(machine.samples(anchorSeconds) / width))) pull.recent.shift();
  const mean = pull.recent.reduce((sum, value) => sum + value, 0) / pull.recent.length;
  pull.largest = Math.max(pull.largest, mean);
  const half = base + 0.5 * (pull.largest - base);
  if (block.total.mean > half) pull.below = undefined;
  else pull.below ??= block.start;
  const close = samplesIn(rules.pull.closeAfter, machine.rate);
  if (pull.below !== undefined && block.end - pull.below >= close + width) {
    const end = firstBelow(machine, { start: pull.below - width, end: pull.below + width }, half);
    closePull(machine, turn, 'released', end + close + 1);
    return;
  }
  const length = block.end - pull.start;
  const { planned } = config.protocol.pullSeconds;
  if (length >= machine.samples(planned)) machine.sayOnce('stop');
  if (length >= machine.samples(planned + rules.pull.beyondPlanned)) closePull(machine, turn, 'too-long', block.end);
}

/** First sample of a span with F <= level; the last one where there is none. */
function firstBelow(machine: Machine, span: SampleSpan, level: number): number {
  const { rig } = machine;
  if (rig === undefined) return span.end - 1;
  const forces = forcesOfSpan(machine.recorded(span), rig.zerosByName(), machine.unit);
  if (!forces.ok) return span.end - 1;
  const at = forces.value.total.findIndex((force) => force <= level);
  return at < 0 ? span.end - 1 : span.start + at;
}

/**
 * Closes the pull under way. An uncued rise that stays far below what was to be expected was no effort: it is said and left.
 *
 * @param end first sample after the trial
 */
export function closePull(machine: Machine, turn: Turn, ended: TrialEnd, end: number): void {
  const { attempt } = machine;
  const { pull } = attempt;
  const span = pull && spanFrom(machine, pull, end);
  if (pull === undefined || span === undefined) return;
  if (ended === 'released' && attempt.request === undefined && isTooSmall(machine, turn, pull.largest)) {
    machine.attempt = {};
    machine.emit({ kind: 'effort-dismissed', span, because: 'too-small' });
    machine.mark('effort dismissed', span.end, { span });
    machine.enter('ready', 'effort-dismissed');
    return;
  }
  closeTrial(machine, turn, span, ended);
}

function isTooSmall(machine: Machine, turn: Turn, largest: number): boolean {
  const { base, effort, rules, target, weighted } = machine;
  const weightShare = rules.warmUp[0]?.weightShare ?? 1;
  const expected =
    effort.kind === 'submaximal' && target !== undefined
      ? target.aim
      : expectedBest(turn.person.best, weightShare, base);
  return (weighted || turn.person.best !== undefined) && largest - base < rules.pull.leastShare * (expected - base);
}
