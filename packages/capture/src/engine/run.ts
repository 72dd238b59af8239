import type { SampleSpan } from '@sthene/core';
import { reviewWaiting } from './judging/review.ts';
import { live } from './live.ts';
import type { Machine } from './machine.ts';
import { isEffort, type Phase } from './phase.ts';
import { cueBlock } from './phases/cue.ts';
import { glance } from './phases/earlier-weight.ts';
import { closeEffort, effortBlock } from './phases/effort.ts';
import { readyBlock } from './phases/ready.ts';
import { restBlock, restOfAll, verdictBlock } from './phases/rest.ts';
import { setUpBlock } from './phases/set-up.ts';
import { standStillBlock } from './phases/stand-still.ts';
import { zeroBlock } from './phases/zero.ts';
import type { Turn } from './state.ts';
import type { Block } from './stream/block.ts';
import { endTurn, stepBackOn, stepOff } from './turn.ts';

type PhaseStep = (machine: Machine, turn: Turn, block: Block) => void;

const steps: Readonly<Record<Exclude<Phase, 'waiting' | 'pull' | 'jump'>, PhaseStep>> = {
  zero: zeroBlock,
  'stand-still': standStillBlock,
  'set-up': setUpBlock,
  ready: readyBlock,
  cue: cueBlock,
  verdict: verdictBlock,
  rest: restBlock,
};

/** One block of samples through the machine: what the plates say first, then the phase. */
export function runBlock(machine: Machine, block: Block): void {
  if (machine.signal === 'down') {
    machine.signal = 'up';
    machine.alert('signal-back', 'The plates send samples again.');
    machine.mark('signal back', block.start);
  }
  live(machine, block);
  if (machine.weighted) machine.presence.update(block, machine.rate);
  const empty = machine.weighted ? !machine.presence.on : machine.phase === 'zero' || machine.phase === 'waiting';
  machine.unloaded.update(block, empty, machine.rate);
  reviewWaiting(machine);
  restOfAll(machine, block.end);
  const { turn } = machine;
  if (turn === undefined) return;
  const { phase } = machine;
  if (isEffort(phase)) {
    // A hold does not stop the recording of an effort.
    effortBlock(machine, turn, block);
    return;
  }
  if (machine.weighted && !follow(machine, turn, block)) return;
  if (turn.held || !glance(machine, turn, block)) return;
  if (phase !== 'waiting') steps[phase](machine, turn, block);
}

/** Stepping off and on in mid-turn. @returns false when the phase has nothing to do with this block */
function follow(machine: Machine, turn: Turn, block: Block): boolean {
  const { presence, rules, unloaded } = machine;
  if (machine.phase === 'zero') return true;
  if (presence.on) {
    turn.wasOn = true;
    turn.mayBoard = true;
    if (turn.boarded !== undefined) {
      // Back from the box: sent there again.
      delete turn.boarded;
      machine.said.delete('onto-the-box');
    }
    if (turn.away !== undefined) stepBackOn(machine, turn);
    return true;
  }
  if (!turn.wasOn || onTheBox(machine, turn)) return true;
  if (turn.away === undefined) {
    stepOff(machine, turn);
    return false;
  }
  if (unloaded.quiet !== undefined) turn.away = { ...turn.away, held: unloaded.quiet.largest <= rules.zero.held };
  if (turn.held) return false;
  const left = rules.awaySeconds - (block.end - turn.away.since) / machine.rate;
  if (left <= 0) {
    endTurn(machine, 'stepped-off');
    return false;
  }
  machine.countdown('away', left);
  return machine.phase === 'verdict' || machine.phase === 'rest';
}

/** Drop jump: whoever leaves the plates for the setup goes to the box, and is expected back in the jump. */
function onTheBox({ fromBox, phase, presence }: Machine, turn: Turn): boolean {
  if (!fromBox || turn.away !== undefined) return false;
  if (phase === 'set-up' && turn.mayBoard) turn.boarded ??= presence.since;
  return turn.boarded !== undefined && (phase === 'set-up' || phase === 'ready' || phase === 'cue');
}

/** Samples are missing for longer than can be filled: nothing may be judged across them. */
export function runGap(machine: Machine, gap: SampleSpan): void {
  machine.mark('gap', gap.start, gap);
  const { turn } = machine;
  if (turn !== undefined) closeEffort(machine, turn, 'gap', gap.start);
  breakOff(machine, 'gap');
  // After so long nobody knows who stands there.
  if ((gap.end - gap.start) / machine.rate > machine.rules.awaySeconds) endTurn(machine, 'signal-lost');
}

/** The source says that the plates are silent or gone. */
export function runSignalLost(machine: Machine, words: string): void {
  if (machine.signal === 'down') return;
  machine.signal = 'down';
  machine.alert('signal-lost', words);
  machine.mark('signal lost');
  const { turn } = machine;
  if (turn !== undefined) closeEffort(machine, turn, 'signal-lost', machine.now);
  breakOff(machine, 'signal-lost');
}

function breakOff(machine: Machine, because: string): void {
  machine.unloaded.reset();
  machine.recent = [];
  machine.steadySince = undefined;
  machine.tenseSince = undefined;
  machine.voidCount(because);
  if (machine.phase === 'ready' || machine.phase === 'cue') {
    machine.attempt = {};
    machine.enter('set-up', because);
  }
}
