import { meanOf, sdOf, secondMeans } from '@sthene/core';
import { forcesOfSpan } from '../judging/live-recording.ts';
import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';
import { momentsOver, totalOf } from '../stream/window.ts';
import type { Weighing } from '../trial.ts';
import { askIdentity } from './identity.ts';
import { enterRest } from './rest.ts';
import { enterSetUp } from './set-up.ts';

/** A stand-still is never shorter, s. */
const shortest = 2;

/** How much longer than asked for a stand-still may become before it starts again, s. */
const longer = 6;

/** Weighs: the countdown runs while the athlete stands still and starts again when they move. */
export function standStillBlock(machine: Machine, turn: Turn, block: Block): void {
  const { rules, presence } = machine;
  if (!presence.on) {
    machine.sayOnce('step-on');
    machine.recent = [];
    return;
  }
  machine.sayOnce('stand-still');
  const seconds = Math.max(shortest, rules.still.seconds);
  const moved =
    machine.recent.length > 0 &&
    Math.abs(block.total.mean - momentsOver(machine.recent, totalOf).mean) > rules.still.moveShare * block.total.mean;
  if (!block.whole || moved) machine.recent = [];
  if (block.whole) machine.recent.push(block);
  const blocks = machine.recent;
  const width = block.end - block.start;
  const length = (blocks.length * width) / machine.rate;
  machine.countdown('stand-still', seconds - length);
  if (block.end - machine.since > machine.samples(rules.still.sayAfter)) machine.sayOnce('cannot-weigh');
  if (length < seconds - 1e-9) return;
  const weighing = isStill(machine, blocks)
    ? weigh(machine, { start: (blocks[0] as Block).start, end: block.end })
    : undefined;
  if (weighing === undefined) {
    // A breath evens out over a longer stand; when it does not, the countdown is seen to start again.
    if (length < seconds + longer) return;
    machine.recent = [];
    machine.sayOnce('still-again');
    return;
  }
  turn.weighing = weighing;
  machine.emit({ kind: 'weighing', weighing });
  machine.mark('weighing', weighing.span.end, weighing);
  askIdentity(machine, turn, weighing);
  afterWeighing(machine, turn, 'weighed');
}

/** The limits by the blocks alone; what passes is measured from its samples. */
function isStill(machine: Machine, blocks: readonly Block[]): boolean {
  const { still } = machine.rules;
  const { mean, sd } = momentsOver(blocks, totalOf);
  if (sd > still.sdShare * mean) return false;
  const half = Math.floor(blocks.length / 2);
  const halves = momentsOver(blocks, totalOf, half).mean - momentsOver(blocks, totalOf, 0, half).mean;
  return Math.abs(halves) <= still.halvesShare * mean;
}

/** The mean of the whole stand-still, if it was still enough. From the recorded samples, as a stored day would give it. */
function weigh(machine: Machine, span: { start: number; end: number }): Weighing | undefined {
  const { rig, rules } = machine;
  if (rig === undefined) return undefined;
  const forces = forcesOfSpan(machine.recorded(span), rig.zerosByName(), machine.unit);
  if (!forces.ok) return undefined;
  const { total, left, right } = forces.value;
  const bodyWeight = meanOf(total);
  const sd = sdOf(total);
  const half = Math.floor(total.length / 2);
  const halves = meanOf(total, half) - meanOf(total, 0, half);
  if (sd > rules.still.sdShare * bodyWeight || Math.abs(halves) > rules.still.halvesShare * bodyWeight)
    return undefined;
  const shareRight =
    left && right && machine.config.protocol.limbs === 'both'
      ? (100 * meanOf(right)) / (meanOf(left) + meanOf(right))
      : undefined;
  const seconds = secondMeans(total, machine.rate);
  return { span, bodyWeight, sd, halves, seconds, ...(shareRight === undefined ? {} : { shareRight }) };
}

/** What follows a weighing (or a zero, in a test without one): rest that is not over, or the setup. */
export function afterWeighing(machine: Machine, turn: Turn, because: string): void {
  const { rest } = turn.person;
  if (machine.effort.kind === 'none' || (rest !== undefined && !rest.over)) enterRest(machine, turn, because);
  else {
    if (machine.weighted && turn.glance === undefined) machine.say('weighed');
    enterSetUp(machine, turn, because);
  }
}
