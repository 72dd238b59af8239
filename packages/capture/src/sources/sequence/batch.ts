import type { MonotonicNanoseconds } from '@sthene/core';
import type { SamplesPacket } from '../../packets/packet.ts';
import type { Run } from '../codec/run.ts';

const largest = 2048;

/** Gathers consecutive runs into one packet of samples. */
export class Batch {
  readonly #channels: number;
  readonly #emit: (packet: SamplesPacket) => void;
  #runs: Run[] = [];
  #first = 0;
  #count = 0;
  #time: number | undefined;
  #at: MonotonicNanoseconds | undefined;

  constructor(channels: number, emit: (packet: SamplesPacket) => void) {
    this.#channels = channels;
    this.#emit = emit;
  }

  /** @param first sample index of the run; has to follow what is gathered */
  add(run: Run, first: number, at: MonotonicNanoseconds, deviceTime: number | undefined): void {
    if (this.#count === 0) {
      this.#first = first;
      this.#time = deviceTime;
    }
    this.#runs.push(run);
    this.#count += run.count;
    if (this.#at === undefined || at > this.#at) this.#at = at;
    if (this.#count >= largest) this.flush();
  }

  flush(): void {
    if (this.#count === 0) return;
    const count = this.#count;
    const values = new Float64Array(count * this.#channels);
    let at = 0;
    for (const run of this.#runs) {
      for (let c = 0; c < this.#channels; c++) {
        for (let i = 0; i < run.count; i++) values[c * count + at + i] = run.values[i * this.#channels + c] as number;
      }
      at += run.count;
    }
    const first = this.#first;
    const deviceTime = this.#time;
    const received = this.#at as MonotonicNanoseconds;
    this.#runs = [];
    this.#count = 0;
    this.#at = undefined;
    this.#emit(
      deviceTime === undefined
        ? { kind: 'samples', first, count, values, at: received }
        : { kind: 'samples', first, count, values, deviceTime, at: received },
    );
  }
}
