import { methodFor, runningRules } from '@sthene/core';
import type { Packet } from '../packets/packet.ts';
import type { EngineConfig } from './config.ts';
import type { EngineInput } from './input.ts';
import { Machine } from './machine.ts';
import { obey, refuse } from './orders.ts';
import type { EngineOutput } from './output.ts';
import { runBlock, runGap, runSignalLost } from './run.ts';
import { sameLayout } from './stream/layout.ts';
import { RigStream } from './stream/rig-stream.ts';
import type { RememberedTrial } from './trial.ts';

/**
 * The live engine of one rig: packets and commands in, outputs out, and nothing else. It has no clock, no timer and no chance in
 * it: time is the index of a sample over the rate. The same inputs give the same outputs at the same samples, however the
 * samples were cut into packets; a recorded day replayed through it is the day again.
 */
export interface Engine {
  /** Takes one input and returns what follows from it, in order. */
  step(input: EngineInput): readonly EngineOutput[];
  /** Closed trials of an athlete, with the reviews known so far. */
  trialsOf(person: string): readonly RememberedTrial[];
  /** Who stands on the plates in a turn, and what they weighed, N; undefined while nobody does. */
  readonly standing: { readonly person: string; readonly bodyWeight: number } | undefined;
}

export function createEngine(config: EngineConfig): Engine {
  const rules = config.running ?? runningRules(config.protocol);
  const machine = new Machine(config, rules, methodFor(config.method, config.protocol));
  return {
    step(input) {
      if (input.kind === 'packet') packet(machine, input.packet);
      else if (input.kind === 'command') obey(machine, input.command);
      else cueSounded(machine, input.cue, input.sample);
      return machine.take();
    },
    trialsOf: (person) => machine.trialsOf(person),
    get standing() {
      return machine.standing;
    },
  };
}

function packet(machine: Machine, packet: Packet): void {
  const { rig } = machine;
  switch (packet.kind) {
    case 'header':
      if (rig === undefined) open(machine, packet);
      else if (!sameLayout(rig.header, packet)) {
        machine.alert('rig-changed', 'Other plates or another rate answer than at the start. Open the rig again.');
        runSignalLost(machine, 'The rig is not the one that was opened.');
        machine.foreign = true;
      } else machine.foreign = false;
      return;
    case 'samples':
      if (!machine.foreign) rig?.samples(packet);
      return;
    case 'gap':
      if (!machine.foreign) rig?.gap(packet.first, packet.count);
      return;
    case 'status':
      if (['quiet', 'lost', 'wrong-device', 'ended'].includes(packet.state)) runSignalLost(machine, packet.words);
      return;
    case 'clock':
      if (packet.measuredRate !== undefined) rateMeasured(machine, packet.measuredRate);
      return;
    case 'end':
      runSignalLost(machine, 'The stream has ended.');
      return;
    case 'fault':
    case 'mark':
      // Counted and kept by the journal; they take no sample from the grid.
      return;
  }
}

function open(machine: Machine, header: Extract<Packet, { kind: 'header' }>): void {
  machine.rig = new RigStream(header, machine.unit, machine.config.zeros ?? {}, {
    block: (block) => runBlock(machine, block),
    longGap: (gap) => runGap(machine, gap),
  });
  const { layout } = machine.rig;
  for (const name of layout.unusable) machine.alert('unit-unknown', `The channel "${name}" has no unit of force.`);
  if (layout.channels.length === 0) machine.alert('no-force-channel', 'The rig has no vertical force channel.');
  machine.state();
}

/** More than this share away from the promised rate is said. */
const rateWarning = 0.005;

function rateMeasured(machine: Machine, rate: number): void {
  const { rig } = machine;
  if (rig === undefined || !(rate > 0)) return;
  rig.measured(rate);
  const off = Math.abs(rate - rig.header.promisedRate) > rateWarning * rig.header.promisedRate;
  if (off && !machine.rateSaid) machine.alert('rate-off', 'The plates run at another rate than promised.');
  machine.rateSaid = off;
}

function cueSounded(machine: Machine, cue: string, sample: number): void {
  const { attempt } = machine;
  if (attempt.request?.cue !== cue || attempt.cue !== undefined || !Number.isFinite(sample)) {
    refuse(machine, 'cue-sounded', 'unknown-cue');
    return;
  }
  attempt.cue = sample;
  machine.mark('cue', sample, { cue, turn: machine.turnNumber, trial: machine.trial });
}
