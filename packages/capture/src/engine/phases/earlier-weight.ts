import type { EarlierWeighing } from '../config.ts';
import type { Machine } from '../machine.ts';
import type { Turn } from '../state.ts';
import type { Block } from '../stream/block.ts';
import { momentsOver, totalOf } from '../stream/window.ts';
import { askIdentity } from './identity.ts';
import { enterSetUp } from './set-up.ts';
import { afterWeighing } from './stand-still.ts';

/** So long somebody must weigh what was weighed in the earlier test, s. */
const glanceSeconds = 0.5;

/** Who has not done so after this time is weighed again, s. */
const longestGlance = 3;

const earlierOf = (machine: Machine, turn: Turn): EarlierWeighing | undefined =>
  machine.weighted && !turn.weighAgain ? turn.person.plan.weighed : undefined;

/**
 * The same person goes on with the next test without having left the plates: weight and zero are those of the test before, because
 * under load there is no zero to take. Where a zero was taken after that weighing, the newest one stands.
 *
 * @returns false where the turn begins with a zero as any other
 */
export function stayOn(machine: Machine, turn: Turn): boolean {
  const earlier = earlierOf(machine, turn);
  if (earlier === undefined || !earlier.here || machine.rig === undefined) return false;
  if (turn.person.plan.zeros === undefined) machine.rig.take(earlier.zeros);
  turn.zeroed = true;
  turn.wasOn = true;
  turn.mayBoard = true;
  stands(machine, turn, earlier, 'stayed-on');
  return true;
}

/** After the zero of a turn. @returns true where the weight of the earlier test stands, so that nobody is weighed */
export function earlierStands(machine: Machine, turn: Turn): boolean {
  const earlier = earlierOf(machine, turn);
  if (earlier === undefined) return false;
  if (!(movedSince(machine, earlier.zeros) <= machine.rules.zero.held)) {
    setAside(machine, turn, 'zero-moved');
    return false;
  }
  turn.glance = [];
  stands(machine, turn, earlier, 'weighed-before');
  return true;
}

/** How far the zero of a plate lies from where it was, N; infinite where a channel was not there. */
function movedSince({ rig }: Machine, zeros: EarlierWeighing['zeros']): number {
  if (rig === undefined) return Number.POSITIVE_INFINITY;
  const moved = new Map<string, number>();
  rig.layout.channels.forEach(({ channel: { name, plate } }, at) => {
    const before = zeros[name] ?? Number.POSITIVE_INFINITY;
    moved.set(plate, (moved.get(plate) ?? 0) + (rig.zeros[at] as number) - before);
  });
  return Math.max(...[...moved.values()].map(Math.abs));
}

function stands(machine: Machine, turn: Turn, earlier: EarlierWeighing, because: string): void {
  const { bodyWeight, seconds, from } = earlier;
  const weight = { bodyWeight, seconds, from };
  turn.weighing = weight;
  machine.emit({ kind: 'earlier-weight', stands: true, weight });
  machine.mark('weight stands', machine.now, { because, ...weight });
  // A bar that was moved is asked about in any case.
  askIdentity(machine, turn, weight);
  if (machine.turn === turn) afterWeighing(machine, turn, because);
}

function setAside(machine: Machine, turn: Turn, because: 'zero-moved' | 'weight-differs'): void {
  turn.weighAgain = true;
  turn.identified = false;
  delete turn.weighing;
  delete turn.glance;
  machine.emit({ kind: 'earlier-weight', stands: false, because });
  machine.mark('weigh again', machine.now, { because });
}

/**
 * Whoever steps on is looked at for half a second before the setup goes on: the body weight of another person shows by the limit of
 * the identity question. Who does not weigh that within three seconds is weighed.
 *
 * @returns false while nothing else may happen in this phase
 */
export function glance(machine: Machine, turn: Turn, block: Block): boolean {
  const blocks = turn.glance;
  if (blocks === undefined || (machine.phase !== 'set-up' && machine.phase !== 'rest')) return true;
  if (!machine.presence.on) {
    turn.glance = [];
    const resting = machine.phase === 'rest';
    if (!resting || turn.person.rest?.over !== false) machine.sayOnce('step-on');
    return resting;
  }
  blocks.push(block);
  const width = block.end - block.start;
  const last = blocks.slice(-Math.ceil(machine.samples(glanceSeconds) / width));
  const long = last.length * width >= machine.samples(glanceSeconds) && last.every(({ whole }) => whole);
  const off = Math.abs(momentsOver(last, totalOf).mean - machine.base) / machine.base;
  if (long && off <= machine.rules.identity.weightShare) {
    delete turn.glance;
    machine.mark('weight seen', block.end);
    if (machine.phase === 'rest') return true;
    machine.say('weighed');
    enterSetUp(machine, turn, 'weight-seen');
    return false;
  }
  if (blocks.length * width >= machine.samples(longestGlance)) {
    machine.closeQuestions('weigh-again');
    setAside(machine, turn, 'weight-differs');
    machine.attempt = {};
    machine.enter('stand-still', 'weight-differs');
    return false;
  }
  return machine.phase === 'rest';
}
