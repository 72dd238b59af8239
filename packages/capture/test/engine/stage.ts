import {
  type ClosedTrial,
  createEngine,
  type Engine,
  type EngineConfig,
  type EngineEvent,
  type EngineInput,
  type EngineOutput,
  type Order,
  type Phase,
  type TurnPlan,
} from '../../src/engine/index.ts';
import type { HeaderPacket, StreamChannel } from '../../src/packets/packet.ts';
import {
  defaultMethod,
  imtpProtocol,
  type MonotonicNanoseconds,
  type PullSpec,
  type SampleIndex,
  type SimulatedPull,
  seededRandom,
  simulatePull,
  type UtcInstant,
} from './core.ts';

/** A virtual athlete of the invented club Fernwater. */
export interface Athlete {
  readonly ref: string;
  readonly bodyWeight: number;
  readonly netForce: number;
  readonly shareRight: number;
  readonly noise: number;
  /** Amplitude of the breathing, N; 3 when absent. */
  readonly sway?: number;
}

export const athlete = (ref: string, more: Partial<Athlete> = {}): Athlete => ({
  ref,
  bodyWeight: 720,
  netForce: 1400,
  shareRight: 0.5,
  noise: 0.8,
  ...more,
});

export const planOf = (who: Athlete, more: Partial<TurnPlan> = {}): TurnPlan => ({
  person: who.ref,
  clearances: [],
  minor: false,
  lastBodyWeight: who.bodyWeight,
  ownBest: who.bodyWeight + who.netForce,
  usualShareRight: 100 * who.shareRight,
  ...more,
});

const monotonic = (n: number): MonotonicNanoseconds => BigInt(Math.round(n * 1e6)) as MonotonicNanoseconds;

/** Two plates in N. */
export const header = (rate: number, range = 10_000): HeaderPacket => ({
  kind: 'header',
  source: 'virtual-rig',
  promisedRate: rate,
  channels: (['left', 'right'] as const).map(
    (side): StreamChannel => ({
      name: side,
      plate: side,
      side,
      axis: 'z',
      unit: 'N',
      scale: 1,
      offset: 0,
      rawRange: [-range, range],
    }),
  ),
  at: monotonic(0),
  wallClock: '2026-03-02T09:00:00Z' as UtcInstant,
});

export const samplesInput = (
  first: SampleIndex,
  left: Float64Array,
  right: Float64Array,
  rate: number,
): EngineInput => {
  const values = new Float64Array(2 * left.length);
  values.set(left, 0);
  values.set(right, left.length);
  const at = monotonic((1000 * (first + left.length)) / rate);
  return { kind: 'packet', packet: { kind: 'samples', first, count: left.length, values, at } };
};

/** Breathing of whoever stands on the plates, N. */
const swayAt = (t: number, amplitude = 3): number => amplitude * Math.sin(2 * Math.PI * 0.28 * t);

/** One thing that happened on the stage, to be played again in other packets. */
export type Happening =
  | { readonly samples: { readonly left: Float64Array; readonly right: Float64Array } }
  | { readonly input: EngineInput; readonly missing?: number };

/**
 * Two plates, their athletes and an engine: what stands on the plates is played sample by sample, and everybody on the stage may
 * look at what the engine says before the next samples come.
 */
export class Stage {
  readonly rate: number;
  /** Of each plate, N. */
  readonly range: number;
  readonly engine: Engine;
  readonly outputs: EngineOutput[] = [];
  readonly happenings: Happening[] = [];
  next = 0;
  /** Constant reading of the empty plates, N each. */
  offset: readonly [number, number] = [0, 0];
  #turn = 0;
  #trial = 0;
  #phase: Phase = 'waiting';
  #who: Athlete | undefined;
  readonly #random = seededRandom(11, 7);
  readonly #packet: number;

  constructor(config: Partial<EngineConfig> = {}, rate = 1000, packet = 20, range = 10_000) {
    this.range = range;
    this.rate = rate;
    this.#packet = packet;
    this.engine = createEngine(stageConfig(config));
    this.input({ kind: 'packet', packet: header(rate, range) });
  }

  get phase(): Phase {
    return this.#phase;
  }
  get turn(): number {
    return this.#turn;
  }
  get trial(): number {
    return this.#trial;
  }

  input(input: EngineInput, missing?: number): EngineOutput[] {
    this.happenings.push({ input, ...(missing === undefined ? {} : { missing }) });
    return this.#take(input);
  }

  #take(input: EngineInput): EngineOutput[] {
    const out = [...this.engine.step(input)];
    for (const output of out) {
      this.outputs.push(output);
      if (output.kind === 'phase') {
        this.#turn = output.turn;
        this.#trial = output.trial;
        this.#phase = output.phase;
      }
    }
    return out;
  }

  /** Sends a command as the screen would that shows the present state. */
  order(order: Order, more: Partial<{ turn: number; trial: number; phase: Phase; late: number }> = {}): EngineOutput[] {
    const at = monotonic((1000 * this.next) / this.rate);
    const command = {
      turn: more.turn ?? this.#turn,
      trial: more.trial ?? this.#trial,
      phase: more.phase ?? this.#phase,
      at: monotonic((1000 * this.next) / this.rate + (more.late ?? 0)),
      expires: (at + 1_000_000_000n) as MonotonicNanoseconds,
      ...order,
    };
    return this.input({ kind: 'command', command });
  }

  refusal(order: Order, more: Parameters<Stage['order']>[1] = {}): string | undefined {
    const refused = this.order(order, more).find(({ kind }) => kind === 'refused');
    return refused?.kind === 'refused' ? refused.code : undefined;
  }

  /** Plays forces, in packets; stops after the packet in which `until` becomes true. */
  play(left: Float64Array, right: Float64Array, until: (out: EngineOutput[]) => boolean = () => false): boolean {
    for (let from = 0; from < left.length; from += this.#packet) {
      const l = left.slice(from, from + this.#packet).map((v) => v + this.offset[0]);
      const r = right.slice(from, from + this.#packet).map((v) => v + this.offset[1]);
      this.happenings.push({ samples: { left: l, right: r } });
      const out = this.#take(samplesInput(this.next, l, r, this.rate));
      this.next += l.length;
      if (until(out)) return true;
    }
    return false;
  }

  /** Whoever is on the plates (nobody: empty plates) for some seconds; `extra` adds force to the sum. */
  wait(seconds: number, until?: (out: EngineOutput[]) => boolean, extra: (t: number) => number = () => 0): boolean {
    const count = Math.round(seconds * this.rate);
    const who = this.#who;
    const noise = who?.noise ?? 0.6;
    const left = new Float64Array(count);
    const right = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      const t = (this.next + i) / this.rate;
      const sway = who === undefined ? 0 : swayAt(t, who.sway);
      const total = (who?.bodyWeight ?? 0) + sway + extra(i / this.rate);
      right[i] = total * (who?.shareRight ?? 0.5) + noise * this.#random.gaussian();
      left[i] = total * (1 - (who?.shareRight ?? 0.5)) + noise * this.#random.gaussian();
    }
    return this.play(left, right, until);
  }

  stepOn(who: Athlete): void {
    this.#ramp(who, true);
    this.#who = who;
    this.wait(1);
  }

  stepOff(): void {
    if (this.#who !== undefined) this.#ramp(this.#who, false);
    this.#who = undefined;
  }

  #ramp(who: Athlete, on: boolean): void {
    const count = Math.round(0.3 * this.rate);
    const force = Float64Array.from(
      { length: count },
      (_, i) => (who.bodyWeight / 2) * (on ? i / count : 1 - i / count),
    );
    this.play(force, force.slice());
  }

  /** Until the engine says something of a kind, at most so long. */
  until(kind: EngineEvent['kind'], seconds: number, test: (output: EngineOutput) => boolean = () => true): boolean {
    return this.wait(seconds, (out) => out.some((output) => output.kind === kind && test(output)));
  }

  untilPhase(phase: Phase, seconds: number): boolean {
    return this.#phase === phase || this.until('phase', seconds, (o) => o.kind === 'phase' && o.phase === phase);
  }

  /** A simulated pull of the athlete on the plates, from `before` seconds ahead of its onset. */
  pull(spec: PullSpec, seed: number, before = 0.35): SimulatedPull {
    const who = this.#who;
    if (who === undefined) throw new Error('nobody is on the plates');
    const pull = simulatePull(
      {
        sampleRate: this.rate,
        bodyWeight: who.bodyWeight,
        netForce: who.netForce,
        // The stage breathes through the pull, so that nothing jumps where the pull begins.
        breathing: 0,
        drift: 0,
        tension: 0,
        plateNoise: who.noise,
        standingShareRight: who.shareRight,
        pullShareRight: who.shareRight,
        // A good pull of this form raises no check; of the others a few do (see the table of truth).
        form: 'power-exponential',
        pace: 'fast',
        ...spec,
      },
      seed,
    );
    const from = Math.max(0, Math.floor(pull.truth.onset.sample - before * this.rate));
    const { plateRange } = pull.truth.parameters;
    const breathed = (force: Float64Array, share: number): Float64Array =>
      force.slice(from).map((value, i) => Math.min(plateRange, value + share * swayAt((this.next + i) / this.rate)));
    this.play(breathed(pull.left, 1 - who.shareRight), breathed(pull.right, who.shareRight));
    return pull;
  }

  /** Plays forces that are made already, with the noise of the plates and the breath of whoever is on them while they are loaded. */
  playOver(left: Float64Array, right: Float64Array, until?: (out: EngineOutput[]) => boolean): boolean {
    const noise = this.#who?.noise ?? 0.6;
    const share = this.#who?.shareRight ?? 0.5;
    const over = (force: Float64Array, part: number): Float64Array =>
      force.map((value, i) => {
        const sway = value > 50 ? part * swayAt((this.next + i) / this.rate, this.#who?.sway) : 0;
        return Math.min(this.range, value + sway + noise * this.#random.gaussian());
      });
    return this.play(over(left, 1 - share), over(right, share), until);
  }

  /** Somebody who is on the plates without having stepped on, as after a landing; nobody: they left them for a box. */
  stands(who: Athlete | undefined): void {
    this.#who = who;
  }

  /** The device sounds a requested cue, `late` seconds after the request. */
  sound(late = 0.04): void {
    const request = this.outputs.findLast(({ kind }) => kind === 'cue-request');
    if (request?.kind !== 'cue-request') throw new Error('no cue was requested');
    this.wait(late + 0.02);
    this.input({ kind: 'cue-sounded', cue: request.cue, sample: request.sample + late * this.rate });
  }

  of<K extends EngineEvent['kind']>(kind: K): Extract<EngineOutput, { kind: K }>[] {
    return this.outputs.filter((output) => output.kind === kind) as Extract<EngineOutput, { kind: K }>[];
  }

  get closed(): ClosedTrial[] {
    return this.of('trial-closed').map(({ trial }) => trial);
  }

  said(code: string): boolean {
    return this.of('guidance').some((guidance) => guidance.code === code);
  }

  alerted(code: string): boolean {
    return this.of('alert').some((alert) => alert.code === code);
  }
}

export const stageConfig = (config: Partial<EngineConfig>): EngineConfig => ({
  protocol: imtpProtocol,
  method: defaultMethod,
  gravity: 9.80665,
  mode: 'guided',
  ...config,
});

/** Raw samples of a stage by stream index; missing ones are NaN. */
export function recordedOf(stage: Stage): { left: Float64Array; right: Float64Array } {
  const left = new Float64Array(stage.next).fill(Number.NaN);
  const right = new Float64Array(stage.next).fill(Number.NaN);
  let at = 0;
  for (const happening of stage.happenings) {
    if ('samples' in happening) {
      left.set(happening.samples.left, at);
      right.set(happening.samples.right, at);
      at += happening.samples.left.length;
    } else at += happening.missing ?? 0;
  }
  return { left, right };
}

/** The same happenings in packets of other lengths: every command comes at the same sample. */
export function replay(stage: Stage, config: Partial<EngineConfig>, length: () => number): EngineOutput[] {
  const engine = createEngine(stageConfig(config));
  const outputs: EngineOutput[] = [];
  let next = 0;
  let left: number[] = [];
  let right: number[] = [];
  const flush = () => {
    for (let from = 0; from < left.length; ) {
      const count = Math.min(left.length - from, length());
      const l = Float64Array.from(left.slice(from, from + count));
      const r = Float64Array.from(right.slice(from, from + count));
      outputs.push(...engine.step(samplesInput(next, l, r, stage.rate)));
      next += count;
      from += count;
    }
    left = [];
    right = [];
  };
  for (const happening of stage.happenings) {
    if ('samples' in happening) {
      left.push(...happening.samples.left);
      right.push(...happening.samples.right);
      continue;
    }
    flush();
    outputs.push(...engine.step(happening.input));
    next += happening.missing ?? 0;
  }
  flush();
  return outputs;
}
