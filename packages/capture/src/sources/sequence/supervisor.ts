import type { MonotonicNanoseconds } from '@sthene/core';
import type { CaptureClock } from '../../clock/clock.ts';
import { RateMeter } from '../../clock/rate.ts';
import { secondsBetween } from '../../clock/time.ts';
import type { ClockPacket, Packet, StatusPacket } from '../../packets/packet.ts';

/** Silence after which a source is quiet, s: with the tick of a tenth of a second it is noticed within half a second. */
const quietAfter = 0.4;
const clockEvery = 5;
/** Difference from the promised rate that is a warning, and how sure it has to be. */
const wrongRate = 0.005;
const rateSureness = 0.001;
/** What a measured rate may be off at best; keeps a rate exactly on the limit from warning now and then. */
const rateTolerance = 0.0001;
/** Looks at the clocks at most so often, s; samples may come much more often. */
const lookEvery = 0.05;
/** A step of the wall clock worth a note, s. */
const wallStep = 1;

interface SupervisorSetup {
  readonly clock: CaptureClock;
  readonly promisedRate: number;
  readonly emit: (packet: Packet) => void;
  /** Samples known so far, lost ones included. */
  readonly position: () => number;
  /** How the device's own clock stands to the station's, where it can be asked. */
  readonly deviceClock?: (() => ClockPacket['deviceClock']) | undefined;
}

/** Watches a stream from outside: silence, suspension, its true rate, and the wall clock beside it. */
export class Supervisor {
  readonly meter: RateMeter;
  readonly #setup: SupervisorSetup;
  readonly #began: MonotonicNanoseconds;
  #lastSample: MonotonicNanoseconds | undefined;
  #stoodSince: MonotonicNanoseconds | undefined;
  #lastTick: MonotonicNanoseconds | undefined;
  #lastClock: MonotonicNanoseconds | undefined;
  #deviceClock: ClockPacket['deviceClock'];
  #lastLook: MonotonicNanoseconds | undefined;
  #lastRateCheck = 0;
  #wallOffset: number | undefined;
  #rateWrong = false;
  /** No samples for half a second while the link stands. */
  quiet = false;
  suspended = false;
  up = false;

  constructor(setup: SupervisorSetup) {
    this.#setup = setup;
    this.meter = new RateMeter(setup.promisedRate);
    this.#began = setup.clock.monotonic();
  }

  /** Seconds since the last sample, or since the link stood. */
  silence(at: MonotonicNanoseconds): number {
    return this.#lastSample === undefined ? 0 : secondsBetween(this.#lastSample, at);
  }

  status(state: StatusPacket['state'], words: string, at: MonotonicNanoseconds): void {
    this.#setup.emit({ kind: 'status', state, words, at });
  }

  linkUp(at: MonotonicNanoseconds): void {
    this.up = true;
    this.quiet = false;
    this.#stoodSince = at;
    this.#lastSample ??= at;
  }

  linkDown(): void {
    this.up = false;
    this.quiet = false;
  }

  /** Samples came; `time` is the device's own, s, where the rate is to be measured by it. */
  heard(at: MonotonicNanoseconds, count: number, time: number | undefined): void {
    this.#lastSample = at;
    this.meter.add(count, time ?? secondsBetween(this.#began, at));
    this.#evidence(at);
  }

  /** To be called ten times a second. */
  tick(at: MonotonicNanoseconds): void {
    if (this.#lastTick !== undefined && secondsBetween(this.#lastTick, at) > 0.5) this.suspended = true;
    this.#lastTick = at;
    const slow = 3 / this.#setup.promisedRate;
    const stood = this.#stoodSince === undefined ? 0 : secondsBetween(this.#stoodSince, at);
    if (this.up && !this.quiet && Math.min(stood, this.silence(at)) > Math.max(quietAfter, slow)) {
      this.quiet = true;
      this.status('quiet', 'The link stands, but no samples have come for half a second.', at);
    }
    this.#evidence(at);
  }

  #evidence(at: MonotonicNanoseconds): void {
    if (this.#lastLook !== undefined && secondsBetween(this.#lastLook, at) < lookEvery) return;
    this.#lastLook = at;
    const seconds = secondsBetween(this.#began, at);
    const stepped = this.#wallStepped(seconds);
    const due = this.#lastClock === undefined || secondsBetween(this.#lastClock, at) >= clockEvery;
    const deviceClock = this.#setup.deviceClock?.();
    const asked = deviceClock !== undefined && deviceClock !== this.#deviceClock;
    if (due || stepped || asked) {
      this.#lastClock = at;
      this.#deviceClock = deviceClock;
      const line = this.meter.line();
      this.#setup.emit({
        kind: 'clock',
        sample: this.#setup.position(),
        at,
        wallClock: this.#setup.clock.wall(),
        ...(line === undefined ? {} : { measuredRate: line.rate, rateUncertainty: line.uncertainty }),
        ...(deviceClock === undefined ? {} : { deviceClock }),
      });
    }
    if (seconds - this.#lastRateCheck >= 1) {
      this.#lastRateCheck = seconds;
      this.#judgeRate(at);
    }
  }

  #wallStepped(seconds: number): boolean {
    const offset = Date.parse(this.#setup.clock.wall()) / 1000 - seconds;
    const before = this.#wallOffset;
    this.#wallOffset = offset;
    return before !== undefined && Math.abs(offset - before) > wallStep;
  }

  #judgeRate(at: MonotonicNanoseconds): void {
    const line = this.meter.line();
    const promised = this.#setup.promisedRate;
    if (line === undefined || line.span < 3 || line.uncertainty > rateSureness * promised) return;
    const off = Math.abs(line.rate - promised);
    const unsure = Math.max(line.uncertainty, rateTolerance * promised);
    const wrong = this.#rateWrong ? off > wrongRate * promised - unsure : off > wrongRate * promised + unsure;
    if (wrong === this.#rateWrong) return;
    this.#rateWrong = wrong;
    const told = `${line.rate.toFixed(2)} samples a second come, ${promised} were promised`;
    if (wrong) this.status('wrong-rate', `${told}.`, at);
    else this.status('connected', `The rate is right again: ${told}.`, at);
  }
}
