import {
  defaultMethod,
  type MonotonicNanoseconds,
  protocolRegistry,
  runningRules,
  type UtcInstant,
} from '@sthene/core';
import {
  type ClosedTrial,
  createEngine,
  type Engine,
  type EngineConfig,
  type EngineEvent,
  type EngineOutput,
  type Order,
  type Phase,
  type TurnPlan,
} from '../../src/engine/index.ts';
import type { Packet } from '../../src/packets/packet.ts';
import type { VirtualScript } from '../../src/sources/virtual/script.ts';
import { type VirtualPlates, virtualPlates } from '../../src/sources/virtual/virtual-plates.ts';

const protocol = protocolRegistry.get('imtp')!;

/** Rules with short rests, so that a day fits into a test. */
export const quickRules = { ...runningRules(protocol), rest: { afterSubmaximal: 5, minimum: 8, maximum: 600 } };

export const stillClock = {
  monotonic: () => 0n as MonotonicNanoseconds,
  wall: () => '2026-03-28T09:00:00.000Z' as UtcInstant,
};

/** Virtual plates wired to a live engine as a station does it: packets in, outputs back to the people, cues sounded 40 ms late. */
export class VirtualRig {
  readonly plates: VirtualPlates;
  readonly engine: Engine;
  readonly packets: Packet[] = [];
  readonly outputs: EngineOutput[] = [];
  turn = 0;
  trial = 0;
  phase: Phase = 'waiting';
  #cues: { cue: string; sample: number }[] = [];

  private constructor(script: VirtualScript, seed: number, config: Partial<EngineConfig>) {
    this.plates = virtualPlates({ id: 'rig', script, seed, clock: stillClock });
    this.engine = createEngine({
      protocol,
      method: defaultMethod,
      gravity: 9.80665,
      mode: 'guided',
      running: quickRules,
      ...config,
    });
  }

  static async open(script: VirtualScript, seed: number, config: Partial<EngineConfig> = {}): Promise<VirtualRig> {
    const rig = new VirtualRig(script, seed, config);
    await rig.plates.start((packet) => {
      rig.packets.push(packet);
      rig.#take(rig.engine.step({ kind: 'packet', packet }));
    });
    rig.wait(2);
    return rig;
  }

  #take(outputs: readonly EngineOutput[]): void {
    for (const output of outputs) {
      this.outputs.push(output);
      if (output.kind === 'phase') ({ turn: this.turn, trial: this.trial, phase: this.phase } = output);
      if (output.kind === 'cue-request') this.#cues.push({ cue: output.cue, sample: output.sample + 40 });
      this.plates.notice(output);
    }
  }

  order(order: Order): void {
    const { turn, trial, phase } = this;
    const at = BigInt(this.plates.position) * 1_000_000n;
    const expires = (at + 1_000_000_000n) as MonotonicNanoseconds;
    const address = { turn, trial, phase, at: at as MonotonicNanoseconds, expires };
    this.#take(this.engine.step({ kind: 'command', command: { ...address, ...order } }));
  }

  call(person: string, plan: Partial<TurnPlan> = {}): void {
    this.order({ order: 'next-athlete', next: { person, clearances: [], minor: false, ...plan } });
  }

  /** Plays for so long, or until something is true; cues sound on the way. */
  wait(seconds: number, until: () => boolean = () => false): boolean {
    const end = this.plates.position + seconds * 1000;
    while (this.plates.position < end) {
      if (until()) return true;
      this.plates.run(this.plates.position + 20);
      const due = this.#cues.filter(({ sample }) => sample <= this.plates.position);
      this.#cues = this.#cues.filter((cue) => !due.includes(cue));
      for (const { cue, sample } of due) this.#take(this.engine.step({ kind: 'cue-sounded', cue, sample }));
    }
    return until();
  }

  must(what: string, seconds: number, until: () => boolean): void {
    if (!this.wait(seconds, until)) throw new Error(`not within ${seconds} s: ${what} (in ${this.phase})`);
  }

  of<K extends EngineEvent['kind']>(kind: K): Extract<EngineOutput, { kind: K }>[] {
    return this.outputs.filter((output) => output.kind === kind) as Extract<EngineOutput, { kind: K }>[];
  }

  sent<K extends Packet['kind']>(kind: K): Extract<Packet, { kind: K }>[] {
    return this.packets.filter((packet) => packet.kind === kind) as Extract<Packet, { kind: K }>[];
  }

  get closed(): ClosedTrial[] {
    return this.of('trial-closed').map(({ trial }) => trial);
  }

  anotherFor(person: string): boolean {
    return this.of('set').findLast((set) => set.person === person)?.another ?? true;
  }
}
