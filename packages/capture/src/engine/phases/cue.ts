import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';
import { momentsOver, totalOf } from '../stream/window.ts';
import { noJump } from './close-jump.ts';
import { watchForEffort } from './effort.ts';
import { watchTension } from './tension.ts';

/** Starts three, two, one; the cue follows. Never remembered for later: it starts now or not at all. */
export function startCount(machine: Machine, because: string): void {
  const { steadySince, recent } = machine;
  machine.attempt = {
    count: { from: machine.now, said: machine.rules.cue.count },
    ...(machine.jumpTest === undefined ? {} : { stance: momentsOver(recent, totalOf).mean }),
  };
  machine.enter('cue', because);
  machine.steadySince = steadySince;
  machine.emit({ kind: 'count', number: machine.rules.cue.count });
}

/** Count, cue, and the wait for the effort. */
export function cueBlock(machine: Machine, turn: Turn, block: Block): void {
  const { attempt } = machine;
  if (attempt.count !== undefined) {
    watchTension(machine, block);
    if (machine.steadySince === undefined) {
      stopCount(machine, turn, 'moved', block);
      return;
    }
    tick(machine, block);
    return;
  }
  if (watchForEffort(machine, turn, block)) return;
  const { request, cue } = attempt;
  if (request === undefined) return;
  const since = block.end - (cue ?? request.at);
  if (cue === undefined && !request.late && since > machine.samples(machine.rules.cue.answer)) {
    request.late = true;
    machine.alert('cue-not-confirmed', 'The device that sounds the cue has not said when it sounded.');
  }
  if (since > machine.samples(machine.rules.cue.wait)) {
    if (machine.jumpTest !== undefined) {
      machine.mark('no jump', block.end);
      noJump(machine, turn, 'no-jump');
      return;
    }
    machine.attempt = {};
    machine.mark('no pull', block.end);
    machine.enter('ready', 'no-pull');
    machine.say('no-pull');
  }
}

/** Voids the count and goes back to ready. An effort that stopped it is still seen there. */
function stopCount(machine: Machine, turn: Turn, because: string, block: Block): void {
  machine.voidCount(because);
  machine.attempt = {};
  machine.enter('ready', because);
  if (!watchForEffort(machine, turn, block)) machine.say('count-stopped');
}

function tick(machine: Machine, block: Block): void {
  const { attempt, rules, config } = machine;
  const { count } = attempt;
  if (count === undefined) return;
  const left = rules.cue.count - Math.floor((block.end - count.from) / machine.rate + 1e-9);
  if (left > 0) {
    if (left < count.said) {
      count.said = left;
      machine.emit({ kind: 'count', number: left });
    }
    return;
  }
  delete attempt.count;
  const cue = machine.nextId('cue');
  attempt.request = { cue, at: block.end, late: false };
  machine.emit({ kind: 'cue-request', cue, words: config.protocol.cue });
  machine.mark('cue requested', block.end, { cue });
}
