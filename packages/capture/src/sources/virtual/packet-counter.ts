import { counterPositions } from '../sequence/position.ts';
import type { LineFault } from './script.ts';

/** Last number of a 16-bit counter. */
const lastCount = 65_535;
const numbers = lastCount + 1;
const nothing = new Float64Array(0);

/**
 * Where packets stand by a 16-bit counter of the plates. It counts from the moment a wrap is asked for, so that its 0 falls on that
 * packet, and is read as the counter of any device is; before that the index needs no counter.
 */
export class PacketCounter {
  readonly #packet: number;
  readonly #faults: readonly LineFault[];
  readonly #positions;
  #next: number | undefined;

  /** @param faults may grow while the plates run */
  constructor(packet: number, faults: readonly LineFault[]) {
    this.#packet = packet;
    this.#faults = faults;
    this.#positions = counterPositions({ counter: { wrapsAt: lastCount }, samplesPerStep: packet });
  }

  /** Index of the first sample of the packet that holds sample `from` of the plates. */
  placed(from: number): number {
    const wrap = this.#faults.find(({ kind }) => kind === 'wrap');
    if (wrap === undefined) return from;
    const zero = Math.ceil(wrap.from / this.#packet);
    const number = from / this.#packet - zero;
    const run = { counter: ((number % numbers) + numbers) % numbers, count: this.#packet, values: nothing };
    const ahead = this.#positions.ahead(run);
    if (typeof ahead !== 'number') throw new Error('a packet without its number');
    this.#positions.accept(run);
    const first = (this.#next ?? from) + ahead;
    this.#next = first + this.#packet;
    return first;
  }
}
