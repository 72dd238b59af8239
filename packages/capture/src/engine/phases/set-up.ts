import { gateOf } from '../gates.ts';
import { limitsOf } from '../limits.ts';
import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';

/** Enters the setup; a rest that was too long has made a submaximal effort the next one by then. */
export function enterSetUp(machine: Machine, turn: Turn, because: string): void {
  machine.attempt = {};
  // Whoever advances sees the athlete on the box.
  if (machine.fromBox && because === 'advanced' && !machine.presence.on) {
    delete turn.away;
    turn.boarded = machine.now;
  }
  machine.enter('set-up', because);
  // Nobody is there yet: to step on is said first.
  if (turn.glance !== undefined) return;
  if (turn.person.warmUpAgain) machine.sayOnce('warm-up-again');
  if (!machine.handsFree) machine.sayOnce('confirm-set-up');
  else if (!turn.armed) machine.sayOnce('arm-for-cues');
}

/** Setup: the operator confirms; hands-free, standing on the plates for a while does. */
export function setUpBlock(machine: Machine, turn: Turn, block: Block): void {
  if (machine.fromBox && !onTheWay(machine, turn)) return;
  const strong = block.total.mean > 2 * limitsOf(machine).pull - machine.base;
  if (!strong) delete machine.attempt.rising;
  else {
    machine.attempt.rising ??= block.start;
    if (block.end - machine.attempt.rising > machine.samples(0.5)) machine.sayOnce('effort-in-set-up');
    return;
  }
  if (!machine.handsFree || gateOf(machine) !== undefined) return;
  const since = Math.max(machine.since, turn.boarded ?? 0);
  if (block.end - since >= machine.samples(machine.rules.ready.setUpSeconds)) {
    confirmSetUp(machine, turn, machine.fromBox ? 'left-for-the-box' : 'stood-on-plates');
  }
}

/** Drop jump: from the plates to the box. */
function onTheWay(machine: Machine, { boarded }: Turn): boolean {
  if (machine.presence.on) machine.sayOnce('onto-the-box');
  return boarded !== undefined;
}

/** The setup is confirmed: ready. */
export function confirmSetUp(machine: Machine, turn: Turn, because: string): void {
  machine.attempt = {};
  machine.readyFrom = machine.now;
  machine.enter('ready', because);
  machine.mark('setup confirmed', machine.now, { turn: turn.number, trial: machine.trial });
}
