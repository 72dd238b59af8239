import type { MonotonicNanoseconds } from '@sthene/core';
import type { CaptureClock } from '../../clock/clock.ts';
import type { ClockPacket, FaultPacket, GapPacket, HeaderPacket, Packet } from '../../packets/packet.ts';
import type { Damage, Run } from '../codec/run.ts';
import { Batch } from './batch.ts';
import { GivenUp } from './given-up.ts';
import type { Positions } from './position.ts';
import { Supervisor } from './supervisor.ts';

export interface SequencerSetup {
  readonly header: Pick<HeaderPacket, 'source' | 'promisedRate' | 'channels'>;
  readonly positions: Positions;
  readonly clock: CaptureClock;
  /** Seconds a missing run may still come; 0 where a link keeps the order. */
  readonly reorderWindow: number;
  /** By which clock the rate is measured; `receive` unless the stream is not paced. */
  readonly rateBy?: 'receive' | 'device';
  /** How the device's own clock stands to the station's, where it can be asked. */
  readonly deviceClock?: () => ClockPacket['deviceClock'];
  readonly emit: (packet: Packet) => void;
}

interface Held {
  readonly run: Run;
  readonly start: number;
  readonly at: MonotonicNanoseconds;
  readonly time: number | undefined;
  readonly cause: GapPacket['cause'];
}

/** Furthest a run is believed to come late or twice, s; more is a counter that lies or began again. */
const believedBack = 5;
const believedAhead = 2;

/**
 * Turns decoded runs into packets on one grid of samples: header first, then samples with every loss, doubling and late
 * arrival counted, end last.
 *
 * A run that leaves samples out waits for them within the reorder window, then they are a gap with its cause. What comes after
 * that is late, what was there already is doubled, what
 * came out of order but in time is swapped. A counter that leaps beyond belief is held back until the next run confirms
 * that the device counts anew; then the gap is as long as the time that passed, within the same stream.
 */
export class Sequencer {
  readonly watch: Supervisor;
  readonly #setup: SequencerSetup;
  readonly #batch: Batch;
  readonly #givenUp = new GivenUp();
  /** Next index to hand on, and the newest index known. */
  #next = 0;
  #frontier = 0;
  #held: Held[] = [];
  #suspect: { run: Run; at: MonotonicNanoseconds } | undefined;
  #damaged = false;
  #reconnected = false;
  #samples = 0;
  #gaps = 0;
  #missing = 0;

  constructor(setup: SequencerSetup) {
    this.#setup = setup;
    this.watch = new Supervisor({
      clock: setup.clock,
      promisedRate: setup.header.promisedRate,
      emit: (packet) => this.#out(packet),
      position: () => this.#frontier,
      deviceClock: setup.deviceClock,
    });
    this.#batch = new Batch(setup.header.channels.length, setup.emit);
  }

  begin(device?: string): void {
    const { header, clock, emit } = this.#setup;
    emit({
      kind: 'header',
      ...header,
      ...(device === undefined ? {} : { device }),
      at: clock.monotonic(),
      wallClock: clock.wall(),
    });
  }

  /** The link stands again: what comes now may have left out anything. */
  reconnected(): void {
    this.#reconnected = this.#frontier > 0;
  }

  take(run: Run, at: MonotonicNanoseconds): void {
    const suspect = this.#suspect;
    if (suspect !== undefined) {
      this.#suspect = undefined;
      if (this.#facts().positions.follows(suspect.run, run)) this.#anew(suspect.run, suspect.at);
      else this.#fault('unreadable', 1, at);
    }
    if (this.#reconnected) {
      this.#afterReturn(run, at);
      return;
    }
    const { rate, positions } = this.#facts();
    let ahead = positions.ahead(run);
    if (ahead === undefined) ahead = this.watch.quiet || this.watch.suspended ? this.#byTime(run, at) : 0;
    else if (ahead !== 'wild') ahead = this.#turned(ahead, run.count, at);
    const seconds = this.watch.silence(at);
    if (
      ahead === 'wild' ||
      ahead > believedAhead * rate + 1.5 * rate * seconds ||
      ahead < -Math.min(believedBack * rate, positions.period)
    ) {
      this.#suspect = { run, at };
      return;
    }
    this.#place(run, ahead, at);
  }

  damage(damage: Damage, at: MonotonicNanoseconds): void {
    this.#fault(damage.fault, damage.count, at);
    this.#damaged = true;
    if (damage.samples > 0 && !this.#setup.positions.tell) {
      this.#settle(at, true);
      this.#gap(damage.samples, 'damaged', at);
      this.#setup.positions.skip?.(damage.samples);
      this.#damaged = false;
    }
  }

  /** After every piece of bytes, so that nothing waits in the batch. */
  flush(at: MonotonicNanoseconds): void {
    this.#settle(at, false);
    this.#batch.flush();
  }

  tick(at: MonotonicNanoseconds): void {
    this.flush(at);
    this.watch.tick(at);
  }

  status(...of: Parameters<Supervisor['status']>): void {
    this.#batch.flush();
    this.watch.status(...of);
  }

  end(at: MonotonicNanoseconds): void {
    if (this.#suspect !== undefined) this.#fault('unreadable', 1, at);
    this.#suspect = undefined;
    this.#settle(at, true);
    this.status('ended', 'The source was stopped.', at);
    this.#setup.emit({ kind: 'end', samples: this.#samples, gaps: this.#gaps, missing: this.#missing, at });
  }

  #facts() {
    return { rate: this.#setup.header.promisedRate, positions: this.#setup.positions };
  }

  #place(run: Run, ahead: number, at: MonotonicNanoseconds): void {
    const { positions } = this.#facts();
    const start = this.#frontier + ahead;
    if (ahead < 0) {
      const end = start + run.count;
      if (start < this.#next) this.#fault(this.#givenUp.take(start, end) ? 'late' : 'doubled', 1, at);
      else if (this.#held.some((held) => start < held.start + held.run.count && end > held.start)) {
        this.#fault('doubled', 1, at);
      } else {
        // In time to be put in order: nothing is lost, but a line that does this is worth knowing.
        this.#fault('swapped', 1, at);
        this.#hold({ run, start, at, time: positions.seconds(run), cause: 'lost' });
      }
      this.#settle(at, false);
      return;
    }
    const time = positions.seconds(run);
    const cause = this.#cause();
    if (this.watch.quiet) this.status('returned', 'Samples come again.', at);
    this.watch.quiet = false;
    this.watch.suspended = false;
    this.#damaged = false;
    positions.accept(run);
    this.#frontier = start + run.count;
    this.watch.heard(at, this.#frontier, this.#setup.rateBy === 'device' ? this.#deviceEnd(run, time) : undefined);
    this.#hold({ run, start, at, time, cause });
    this.#settle(at, false);
  }

  /** Device time at the end of a run, for the meter. */
  #deviceEnd(run: Run, time: number | undefined): number | undefined {
    return time === undefined ? undefined : time + run.count / this.#setup.header.promisedRate;
  }

  #hold(one: Held): void {
    let at = this.#held.length;
    while (at > 0 && (this.#held[at - 1] as Held).start > one.start) at--;
    this.#held.splice(at, 0, one);
  }

  /** Hands on what is in order; gives up what did not come in time, or all of it at once. */
  #settle(at: MonotonicNanoseconds, all: boolean): void {
    const window = this.#setup.reorderWindow;
    for (let first = this.#held[0]; first !== undefined; first = this.#held[0]) {
      if (first.start > this.#next) {
        const waited = Number(at - this.#oldest()) / 1e9;
        const many = this.#frontier - this.#next - first.run.count >= window * this.#setup.header.promisedRate;
        const longer = first.cause !== 'lost' && first.cause !== 'damaged';
        if (!all && !longer && waited < window && !many) return;
        this.#gap(first.start - this.#next, first.cause, at);
      }
      this.#held.shift();
      this.#next = first.start + first.run.count;
      this.#samples += first.run.count;
      this.#batch.add(first.run, first.start, first.at, first.time);
    }
  }

  #oldest(): MonotonicNanoseconds {
    let oldest = (this.#held[0] as Held).at;
    for (const { at } of this.#held) if (at < oldest) oldest = at;
    return oldest;
  }

  #gap(count: number, cause: GapPacket['cause'], at: MonotonicNanoseconds): void {
    if (count <= 0) return;
    this.#out({ kind: 'gap', first: this.#next, count, cause, at });
    this.#givenUp.add(this.#next, this.#next + count);
    this.#gaps++;
    this.#missing += count;
    this.#next += count;
    this.#frontier = Math.max(this.#frontier, this.#next);
  }

  #cause(): GapPacket['cause'] {
    if (this.watch.suspended) return 'suspended';
    if (this.watch.quiet) return 'stall';
    return this.#damaged ? 'damaged' : 'lost';
  }

  #fault(fault: FaultPacket['fault'], count: number, at: MonotonicNanoseconds): void {
    this.#out({ kind: 'fault', fault, count, near: this.#frontier, at });
  }

  /** Everything but samples: those gathered so far go first. */
  #out(packet: Packet): void {
    this.#batch.flush();
    this.#setup.emit(packet);
  }

  /** Samples that the time since the last one would have brought, less those that came. */
  #byTime(run: Run, at: MonotonicNanoseconds): number {
    return Math.max(0, Math.round(this.watch.silence(at) * this.#facts().rate) - run.count);
  }

  /**
   * Turns of the counter that a silence hid. After one of nearly half a turn, what looks like going back is going on; of whole
   * turns only those that last long enough not to be told from samples that were merely held up.
   */
  #turned(ahead: number, count: number, at: MonotonicNanoseconds): number {
    const { rate, positions } = this.#facts();
    const { period } = positions;
    const passed = this.watch.silence(at) * rate;
    if (!Number.isFinite(period) || passed < 0.4 * period) return ahead;
    let on = ahead;
    if (ahead < 0 && ahead + period <= passed + count + 0.05 * rate) on = ahead + period;
    if (on < 0 || period < 2 * rate) return on;
    return on + Math.max(0, Math.round((passed - on) / period)) * period;
  }

  /** First run after a lost link: by its counter where that fits the time that passed, else by the time. */
  #afterReturn(run: Run, at: MonotonicNanoseconds): void {
    const { rate, positions } = this.#facts();
    this.#reconnected = false;
    this.#settle(at, true);
    const passed = this.watch.silence(at) * rate;
    const counted = positions.ahead(run);
    let ahead = Math.max(0, Math.round(passed) - run.count);
    if (typeof counted === 'number') {
      const { period } = positions;
      const turns = Number.isFinite(period) ? Math.round((passed - counted) / period) * period : 0;
      const fitting = counted + turns;
      if (fitting >= 0 && Math.abs(fitting - passed) <= Math.max(rate, 0.05 * passed)) ahead = fitting;
    }
    if (ahead > 0) this.#gap(ahead, 'disconnected', at);
    this.watch.meter.restart();
    this.#place(run, 0, at);
  }

  /** The device counts anew: the gap is what the time says. */
  #anew(run: Run, at: MonotonicNanoseconds): void {
    this.#settle(at, true);
    const lost = Math.max(0, Math.round(this.watch.silence(at) * this.#facts().rate) - run.count);
    const cause = this.#cause();
    // Less than half a second is the unevenness of the transport, not a loss.
    if (lost > 0.5 * this.#facts().rate) this.#gap(lost, cause, at);
    this.watch.meter.restart();
    this.#place(run, 0, at);
  }
}
