import type { MonotonicNanoseconds, Spot, UtcInstant } from '@sthene/core';
import type { CaptureClock } from '../../clock/clock.ts';
import type { EngineOutput } from '../../engine/index.ts';
import type { Packet } from '../../packets/packet.ts';
import type { Source } from '../source.ts';
import { VirtualClock } from './clock.ts';
import { Line } from './line.ts';
import { Loads } from './loads.ts';
import { Performer } from './performer.ts';
import { Plates } from './plates.ts';
import { Reactions } from './reactions.ts';
import type { LineFault, PlateSide, VirtualPerson, VirtualScript } from './script.ts';

/** Calls `tick` every so many ms until the returned function is called, as setInterval does. */
export type Schedule = (tick: () => void, everyMilliseconds: number) => () => void;

export interface VirtualPlatesOptions {
  readonly id: string;
  readonly script: VirtualScript;
  /** Everything by chance follows from it. */
  readonly seed: number;
  readonly clock: CaptureClock;
  /** Times real time; 1 when absent. Only where `schedule` is given. */
  readonly speed?: number;
  /** Paces the stream. Absent: samples come only from `run`. */
  readonly schedule?: Schedule;
}

/** Two plates that exist only in software, and the people who stand on them. */
export interface VirtualPlates extends Source {
  /** Index of the next sample. */
  readonly position: number;
  /** What the live engine says; the people of the script follow it unless the script is played by hand. */
  notice(output: EngineOutput): void;
  /** Whom a reference means: whoever of the script weighs so much, N, where nobody has that reference yet. */
  expect(person: string, bodyWeight: number): void;
  /** Somebody of the script steps on; whoever stands there steps off first. An unknown index throws. */
  stepOn(personIndex: number): void;
  stepOff(): void;
  /** Takes the bar with a small tension, N; 0 lets go of it. */
  takeBar(newtons: number): void;
  /** A cue sounded: whoever stands there pulls 0.2 to 0.4 s later; to an aim (gross, N), or with all strength. */
  cue(aim?: number): void;
  /** Masses are put on a plate, or taken off: from now on it bears so many newtons, at one place, besides whoever stands there. */
  putLoad(side: PlateSide, newtons: number, spot?: Spot): void;
  /** Somebody taps a plate once with something hard: it rings at its natural frequency. */
  tap(side: PlateSide): void;
  /** The first person of the script stands still with both feet on one plate, and moves there from the other one. Throws where the script has nobody. */
  standOn(side: PlateSide): void;
  /** A further fault of the line. One that began before `position` throws. */
  disturb(fault: LineFault): void;
  /** Plays as fast as possible up to a sample, in whole packets. Throws before `start`, and when a schedule paces the stream. */
  run(untilSamples: number): void;
}

/** Hz. */
export const virtualRate = 1000;
const rate = virtualRate;
const packet = 20; // samples
const clockEvery = 5 * rate; // samples
/** At most so many samples at once when catching up, so that a station that slept stays usable. */
const burst = 5 * rate;

export const isVirtual = (source: Source): source is VirtualPlates => 'notice' in source && 'disturb' in source;

/**
 * Virtual plates: left and right, vertical, 1000 Hz, N in steps of 0.1, packets of 20 ms, a clock packet every 5 s. The same
 * script, seed and calls at the same samples give the same samples.
 *
 * Paced by a schedule the stream follows the monotonic clock times `speed` and catches up what a late tick left out; its
 * packets carry the time they were made at. Run without a schedule they carry the time of their last sample from the start on.
 * Throws for a fault of a pull that the simulation does not know and for a speed that is not positive.
 */
export function virtualPlates(options: VirtualPlatesOptions): VirtualPlates {
  return new TwoPlates(options);
}

class TwoPlates implements VirtualPlates {
  readonly id: string;
  readonly #options: VirtualPlatesOptions;
  readonly #speed: number;
  readonly #performer: Performer;
  readonly #reactions: Reactions;
  readonly #plates: Plates;
  readonly #loads = new Loads(rate);
  readonly #faults: LineFault[];
  /** Who is weighed in a check holds still. */
  readonly #still: VirtualPerson | undefined;
  #running: { readonly emit: (packet: Packet) => void; readonly line: Line; readonly cancel?: () => void } | undefined;
  #ended = false;
  #startedAt: MonotonicNanoseconds = 0n as MonotonicNanoseconds;
  #startedWall: UtcInstant | undefined;
  readonly #time: VirtualClock;

  constructor(options: VirtualPlatesOptions) {
    const { id, script, seed, speed = 1 } = options;
    if (!(speed > 0 && Number.isFinite(speed))) throw new RangeError('the speed of virtual plates must be positive');
    this.id = id;
    this.#options = options;
    this.#speed = speed;
    this.#faults = [...(script.line ?? [])];
    this.#time = new VirtualClock(rate, this.#faults);
    const [first] = script.people;
    this.#still = first && { ...first, breathing: 0.5, tremor: 0 };
    this.#performer = new Performer(script, seed, rate);
    this.#reactions = new Reactions(this.#performer, script.people);
    this.#plates = new Plates(
      script.plateNoise ?? 0.6,
      script.plateRange ?? 10_000,
      seed,
      rate,
      this.#faults,
      script.plates,
    );
  }

  get position(): number {
    return this.#performer.now;
  }

  async start(emit: (packet: Packet) => void): Promise<void> {
    if (this.#running !== undefined || this.#ended) throw new Error('virtual plates start once');
    const { clock, schedule } = this.#options;
    this.#startedAt = clock.monotonic();
    this.#startedWall = clock.wall();
    // Whoever listens may stop the stream in the middle of a packet; nothing comes after its end.
    const guarded = (sent: Packet): void => {
      if (!this.#ended) emit(sent);
    };
    const line = new Line(rate, packet, this.#faults, guarded);
    this.#running = { emit, line };
    emit({
      kind: 'header',
      source: this.id,
      device: 'virtual',
      promisedRate: rate,
      channels: this.#plates.channels,
      at: this.#startedAt,
      wallClock: this.#startedWall,
    });
    if (schedule === undefined) return;
    const cancel = schedule(() => this.#tick(), (1000 * packet) / rate);
    // A first tick may have stopped it already.
    if (this.#ended) cancel();
    else this.#running = { emit, line, cancel };
  }

  async stop(): Promise<void> {
    const running = this.#running;
    this.#running = undefined;
    if (running === undefined) {
      this.#ended = true;
      return;
    }
    running.cancel?.();
    const { line } = running;
    const at = this.#at();
    line.closeGap(at);
    running.emit({ kind: 'end', samples: line.samples, gaps: line.gaps, missing: line.missing, at });
    this.#ended = true;
  }

  notice(output: EngineOutput): void {
    if (this.#options.script.byHand !== true) this.#reactions.notice(output);
  }

  expect(person: string, bodyWeight: number): void {
    this.#reactions.expect(person, bodyWeight);
  }

  stepOn(personIndex: number): void {
    const person = this.#options.script.people[personIndex];
    if (person === undefined) throw new RangeError(`the script has no person ${personIndex}`);
    this.#performer.stepOn(person);
  }

  stepOff(): void {
    this.#performer.stepOff();
  }

  takeBar(newtons: number): void {
    this.#performer.takeBar(newtons);
  }

  cue(aim?: number): void {
    this.#performer.pull(aim);
  }

  putLoad(side: PlateSide, newtons: number, spot: Spot = 'centre'): void {
    this.#loads.put(side, this.#plates.borne(side, newtons, spot), this.position, spot);
  }

  tap(side: PlateSide): void {
    this.#plates.tap(side);
  }

  standOn(side: PlateSide): void {
    if (this.#still === undefined) throw new RangeError('the script has nobody who could stand there');
    this.#performer.stepOn(this.#still, side);
  }

  disturb(fault: LineFault): void {
    if (fault.from < this.position) throw new RangeError('a fault of the line must lie ahead');
    this.#faults.push(fault);
  }

  run(untilSamples: number): void {
    if (this.#running === undefined) throw new Error('virtual plates run after they started');
    if (this.#options.schedule !== undefined) throw new Error('these virtual plates are paced by a schedule');
    while (this.#running !== undefined && this.position < untilSamples) this.#play();
  }

  /** Plays what is due by the monotonic clock. */
  #tick(): void {
    const elapsed = Number(this.#options.clock.monotonic() - this.#startedAt) / 1e9;
    const due = Math.min(Math.floor(this.#time.samplesAt(elapsed * this.#speed)), this.position + burst);
    while (this.#running !== undefined && this.position + packet <= due) this.#play();
  }

  /** One packet. */
  #play(): void {
    const running = this.#running;
    if (running === undefined) return;
    const first = this.position;
    const left = new Float64Array(packet);
    const right = new Float64Array(packet);
    for (let i = 0; i < packet; i++) {
      const feet = this.#performer.next();
      const n = first + i;
      left[i] = this.#plates.raw('left', feet.left + this.#loads.at('left', n), n);
      right[i] = this.#plates.raw('right', feet.right + this.#loads.at('right', n), n);
    }
    const at = this.#at();
    running.line.carry(first, left, right, at);
    if (this.#running === undefined || running.line.silent) return;
    // By the plates' own time: what a busy machine does to the timer is no property of the plates.
    this.#time.heard(this.position);
    if (this.position % clockEvery !== 0) return;
    running.emit({ kind: 'clock', sample: this.position, at, wallClock: this.#wall(), ...this.#time.rate() });
    const wrong = this.#time.judged();
    if (wrong !== undefined) running.emit({ kind: 'status', ...wrong, at });
  }

  #at(): MonotonicNanoseconds {
    if (this.#options.schedule !== undefined) return this.#options.clock.monotonic();
    return (this.#startedAt + BigInt(Math.round(1e9 * this.#time.secondsAt(this.position)))) as MonotonicNanoseconds;
  }

  #wall(): UtcInstant {
    if (this.#options.schedule !== undefined || this.#startedWall === undefined) return this.#options.clock.wall();
    const started = Date.parse(this.#startedWall);
    return new Date(started + 1000 * this.#time.secondsAt(this.position)).toISOString() as UtcInstant;
  }
}
