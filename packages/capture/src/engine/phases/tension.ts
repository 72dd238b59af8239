import type { JumpKind } from '@sthene/core';
import { limitsOf } from '../limits.ts';
import type { Machine } from '../machine.ts';
import type { SayingId } from '../sayings/sayings.ts';
import type { Block } from '../stream/block.ts';
import { rangeOver } from '../stream/window.ts';

/** Follows the last second: where the tension is, and whether it is steady. */
export function watchTension(machine: Machine, block: Block): void {
  const { rules, recent } = machine;
  if (!block.whole) {
    machine.recent = [];
    machine.steadySince = undefined;
    machine.tenseSince = undefined;
    return;
  }
  recent.push(block);
  const width = block.end - block.start;
  const need = Math.ceil(machine.samples(rules.ready.steadySeconds) / width);
  if (recent.length > need) recent.shift();
  const { low, high, steadyRange } = limitsOf(machine);
  const constant = recent.length === need && rangeOver(recent) <= steadyRange;
  const inBand = recent.every(({ total }) => total.mean >= low && total.mean <= high);
  machine.tenseSince = constant ? (machine.tenseSince ?? (recent[0] as Block).start) : undefined;
  machine.steadySince = constant && inBand ? (machine.steadySince ?? block.end) : undefined;
  guide(machine, block, constant, low, high);
}

/** What to do before the cue of a jump. */
const stances: Readonly<Record<JumpKind, SayingId>> = {
  countermovement: 'stand-still',
  squat: 'squat-and-hold',
  drop: 'wait-on-the-box',
  repeated: 'stand-still',
};

/** Says where the tension is when that has changed, at most once a second. */
function guide(machine: Machine, block: Block, constant: boolean, low: number, high: number): void {
  if (machine.phase !== 'ready') return;
  const { mean } = block.total;
  const steady = machine.steadySince !== undefined;
  const off: SayingId | undefined = mean > high ? 'ease-off' : mean < low ? 'take-up-slack' : undefined;
  const code = steady
    ? 'ready'
    : machine.jumpTest === undefined
      ? (off ?? 'hold-steady')
      : stances[machine.jumpTest.kind];
  if (machine.said.get('tension') === code) return;
  const last = machine.said.get('tension at') as number | undefined;
  if (last !== undefined && block.end - last < machine.rate && !constant) return;
  machine.said.set('tension', code);
  machine.said.set('tension at', block.end);
  machine.say(code);
}
