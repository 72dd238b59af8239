import { type JumpKind, type JumpRules, leastStanding } from '@sthene/core';
import type { Machine } from '../machine.ts';
import type { JumpStage } from '../phase.ts';
import type { JumpUnderWay, Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';
import { closeJump, dismissJump } from './close-jump.ts';
import { settled } from './landing.ts';

/**
 * Sees a jump begin. After the cue it begins where the force leaves the stance (in a drop jump: where the plates are touched);
 * without one only a flight makes it a jump, so that swaying in the stance is none.
 *
 * @returns true when the phase has become `jump`
 */
export function watchForJump(machine: Machine, turn: Turn, block: Block, { kind, rules }: JumpOfTest): boolean {
  const { attempt } = machine;
  const air = airTime(attempt, block, rules);
  const cued = attempt.request !== undefined;
  if (!cued && kind !== 'drop') {
    if (air === undefined || air < leastAir(rules, block, machine)) return false;
    begin(machine, turn, attempt.air ?? block.start, 'without-cue');
    tookOff(machine, block.end);
    return true;
  }
  const left =
    kind === 'drop'
      ? block.total.mean > (cued ? rules.unloaded : leastStanding)
      : Math.abs(block.total.mean - machine.stance) > Math.max(rules.leave, rules.leaveShare * machine.stance);
  if (!left) {
    delete attempt.rising;
    return false;
  }
  attempt.rising ??= block.start;
  if (block.end - attempt.rising < machine.samples(rules.sustain)) return false;
  begin(machine, turn, attempt.rising, cued ? 'after-cue' : 'without-cue');
  return true;
}

/** A jump from standing is under way for less than this before its take-off, s. */
const pushSeconds = 1.5;

/** What a jump test is followed by. */
export interface JumpOfTest {
  readonly kind: JumpKind;
  readonly rules: JumpRules;
}

function begin(machine: Machine, turn: Turn, start: number, because: string): void {
  const { attempt } = machine;
  machine.voidCount('jump-began');
  const standing = turn.boarded === undefined ? machine.presence.since : 0;
  const { air } = attempt;
  attempt.jump = { start, standing, stage: 'go', flights: 0, recent: [], ...(air === undefined ? {} : { air }) };
  delete turn.boarded;
  machine.enter('jump', because);
  machine.mark('jump began', start, { turn: turn.number, trial: machine.trial });
  stage(machine, attempt.jump, 'go', start);
}

/** Follows a jump through flight and landing to the stance after it. A flight is no stepping off, however empty the plates are. */
export function jumpBlock(machine: Machine, turn: Turn, block: Block): void {
  const { jump } = machine.attempt;
  const of = machine.jumpTest;
  if (jump === undefined || of === undefined) return;
  const { kind, rules } = of;
  const air = airTime(jump, block, rules);
  if (air !== undefined) {
    jump.recent.length = 0;
    if (air > machine.samples(rules.longestFlight)) leftPlates(machine, turn, jump, block.end);
    else if (air >= leastAir(rules, block, machine) && jump.stage !== 'flight')
      rose(machine, turn, jump, kind, rules, block.end);
    return;
  }
  if (jump.stage === 'flight') landed(machine, jump, kind, block.start);
  if (jump.stage === 'go') {
    if (block.end > latestTakeOff(machine, jump, kind, rules)) dismissJump(machine, turn, 'no-flight', block.end);
    return;
  }
  if (block.end - jump.start > machine.samples(rules.longestSeries)) {
    closeJump(machine, turn, 'too-long', block.end);
    return;
  }
  settle(machine, turn, jump, block, rules);
}

/** From a box the take-off follows the landing soon; from standing there is as long as after a cue, and for one that begins late its push. */
function latestTakeOff(
  machine: Machine,
  { start }: JumpUnderWay,
  kind: JumpKind,
  { longestFlight }: JumpRules,
): number {
  if (kind === 'drop') return start + machine.samples(longestFlight);
  const { cue, request } = machine.attempt;
  const waited = (cue ?? request?.at ?? start) + machine.samples(machine.rules.cue.wait);
  return Math.max(waited, start + machine.samples(pushSeconds));
}

/** Keeps when the plates became empty. @returns for how many samples they have been; undefined while loaded */
function airTime(of: { air?: number }, block: Block, rules: JumpRules): number | undefined {
  if (!(block.total.mean < rules.unloaded)) {
    delete of.air;
    return undefined;
  }
  of.air ??= block.start;
  return block.end - of.air;
}

/** The shortest flight in whole blocks: the blocks at its ends are loaded in part. */
const leastAir = (rules: JumpRules, block: Block, machine: Machine): number =>
  machine.samples(rules.leastFlight) - (block.end - block.start);

function stage(machine: Machine, jump: JumpUnderWay, to: JumpStage, at: number): void {
  jump.stage = to;
  machine.emit({ kind: 'stage', stage: to, at, flights: jump.flights });
}

function tookOff(machine: Machine, now: number): void {
  const { jump } = machine.attempt;
  if (jump === undefined) return;
  jump.flights++;
  stage(machine, jump, 'flight', jump.air ?? now);
}

/** Long enough in the air: the flight of the jump, a further hop, a bounce, or another jump that ends this one. */
function rose(machine: Machine, turn: Turn, jump: JumpUnderWay, kind: JumpKind, rules: JumpRules, now: number): void {
  const since = jump.air ?? now;
  if (jump.touchdown === undefined || kind === 'repeated') tookOff(machine, now);
  else if (since - jump.touchdown >= machine.samples(rules.bounce)) {
    // Cut before the push of the next one, which is another jump's.
    const cut = Math.max(jump.touchdown + machine.samples(rules.bounce), since - machine.samples(pushSeconds));
    closeJump(machine, turn, 'not-still', Math.floor(cut));
  }
}

function landed(machine: Machine, jump: JumpUnderWay, kind: JumpKind, at: number): void {
  if (kind === 'repeated') jump.touchdown = at;
  else jump.touchdown ??= at;
  stage(machine, jump, 'landing', at);
  if (kind !== 'repeated') machine.sayOnce('land-still');
}

/** Nobody comes back: the jump before it stands, and without one there was none. */
function leftPlates(machine: Machine, turn: Turn, jump: JumpUnderWay, now: number): void {
  if (jump.touchdown === undefined) dismissJump(machine, turn, 'left-plates', now);
  else closeJump(machine, turn, 'not-still', jump.air ?? now);
}

/** After the landing: still for a second closes the jump, and so does the time. */
function settle(machine: Machine, turn: Turn, jump: JumpUnderWay, block: Block, rules: JumpRules): void {
  const { recent } = jump;
  if (!block.whole) recent.length = 0;
  else recent.push(block);
  const width = block.end - block.start;
  const need = Math.ceil(machine.samples(rules.stillSeconds) / width);
  if (recent.length > need) recent.shift();
  const { still, standing } = settled(recent, need, rules.stillShare);
  if (standing && jump.stage === 'landing') stage(machine, jump, 'still', block.start);
  else if (!standing && jump.stage === 'still') stage(machine, jump, 'landing', block.start);
  if (still) closeJump(machine, turn, 'released', block.end);
  else if (block.end - (jump.touchdown ?? block.end) >= machine.samples(rules.latest))
    closeJump(machine, turn, 'not-still', block.end);
}
