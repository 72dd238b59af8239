import { closeTrial } from '../judging/close-trial.ts';
import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import type { TrialEnd } from '../trial.ts';
import { spanFrom } from './effort-span.ts';
import { enterSetUp } from './set-up.ts';

/**
 * Closes the jump under way.
 *
 * @param end first sample after the trial
 */
export function closeJump(machine: Machine, turn: Turn, ended: TrialEnd, end: number): void {
  const { jump } = machine.attempt;
  const span = jump && spanFrom(machine, jump, end);
  if (span !== undefined) closeTrial(machine, turn, span, ended);
}

/** It was no jump: nobody left the plates, or nobody came back to them. It is said and left. */
export function dismissJump(machine: Machine, turn: Turn, because: 'no-flight' | 'left-plates', end: number): void {
  const { jump } = machine.attempt;
  const span = jump && spanFrom(machine, jump, end);
  machine.attempt = {};
  if (span !== undefined) {
    machine.emit({ kind: 'effort-dismissed', span, because });
    machine.mark('effort dismissed', span.end, { span, because });
  }
  noJump(machine, turn, because);
}

/**
 * No jump came of a cue: back to the stance. Before a jump from a box that is the setup where somebody stands on the plates, and
 * hands-free in any case: no cue follows another one while nobody has been seen.
 */
export function noJump(machine: Machine, turn: Turn, because: string): void {
  machine.attempt = {};
  const { on } = machine.presence;
  if (!machine.fromBox || (!machine.handsFree && !on)) machine.enter('ready', because);
  else {
    delete turn.boarded;
    turn.mayBoard = on;
    enterSetUp(machine, turn, because);
  }
  machine.say('no-jump');
}
