import type { SamplesPacket } from '@sthene/capture';
import type { MonotonicNanoseconds } from '@sthene/core';
import { TimeBase } from '../../video/time-base.ts';
import { RateCheck } from './rate-check.ts';
import { SampleTime } from './sample-time.ts';

/** The station's time of a stream's samples: over the last seconds for what happens now, over minutes for what is placed later. */
export class StreamClock {
  readonly #promised: number;
  readonly #base: TimeBase;
  readonly #check = new RateCheck();
  #recent: SampleTime;

  constructor(promisedRate: number) {
    this.#promised = promisedRate;
    this.#base = new TimeBase(promisedRate);
    this.#recent = new SampleTime(promisedRate);
  }

  samples(packet: SamplesPacket): void {
    this.#recent.samples(packet);
    this.#base.samples(packet);
  }

  /** When a sample was taken, ms of the station's clock; undefined before any came. */
  timeOf(sample: number): number | undefined {
    return this.#base.timeOf(sample);
  }

  /** Samples a second of station time, over the last minutes. */
  get rate(): number {
    return this.#base.rate;
  }

  /** The same over the last two seconds. */
  get recentRate(): number {
    return this.#recent.rate;
  }

  /** Index of the sample taken at a station time; undefined before any came. */
  sampleAt(at: MonotonicNanoseconds): number | undefined {
    return this.#recent.sampleAt(at);
  }

  /** The machine was asleep: the rate is compared with what it was. */
  wokeUp(): void {
    // Before it has settled the rate is only what the source promises, and virtual plates may play faster.
    this.#check.begin(this.#recent.settled ? this.#recent.rate : undefined);
    this.#recent = new SampleTime(this.#promised);
  }

  /** Called now and then after waking up: says once whether the plates run as before; undefined while there is nothing to say. */
  checkRate(): boolean | undefined {
    return this.#check.judge(this.#recent);
  }
}
