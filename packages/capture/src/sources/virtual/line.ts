import type { MonotonicNanoseconds } from '@sthene/core';
import type { GapPacket, Packet } from '../../packets/packet.ts';
import { PacketCounter } from './packet-counter.ts';
import type { LineFault } from './script.ts';

type Missing = Extract<LineFault, { kind: 'lost' | 'late' | 'stall' | 'unplug' }>;

const causes: Readonly<Record<Missing['kind'], GapPacket['cause']>> = {
  lost: 'lost',
  late: 'lost',
  stall: 'stall',
  unplug: 'disconnected',
};

const isMissing = (fault: LineFault): fault is Missing => fault.kind in causes;

/** Silence of this length is said, s. */
const silence = 0.5;

/** The way from the plates to the station: what is lost on it becomes a gap, what comes twice or late a counted fault. */
export class Line {
  samples = 0;
  gaps = 0;
  missing = 0;
  readonly #rate: number;
  readonly #packet: number;
  readonly #faults: readonly LineFault[];
  readonly #emit: (packet: Packet) => void;
  readonly #counter: PacketCounter;
  /** Samples missing so far that no gap has told yet. */
  #open: { first: number; count: number; kind: Missing['kind']; said: boolean } | undefined;

  constructor(rate: number, packet: number, faults: readonly LineFault[], emit: (packet: Packet) => void) {
    this.#rate = rate;
    this.#packet = packet;
    this.#faults = faults;
    this.#emit = emit;
    this.#counter = new PacketCounter(packet, faults);
  }

  /** True while samples are missing. */
  get silent(): boolean {
    return this.#open !== undefined;
  }

  /** Takes a packet of raw samples that the plates measured from `sample` on; NaN is a sample that was lost. */
  carry(sample: number, left: Float64Array, right: Float64Array, at: MonotonicNanoseconds): void {
    const first = this.#counter.placed(sample);
    const missing = this.#faults.filter(isMissing);
    let from = 0;
    for (let i = 0; i < left.length; i++) {
      const n = first + i;
      const fault = missing.find((f) => n >= f.from && n < f.from + f.count);
      const kind = fault?.kind ?? (Number.isNaN(left[i]! + right[i]!) ? 'lost' : undefined);
      if (kind === undefined) {
        if (this.#open !== undefined) {
          this.closeGap(at);
          from = i;
        }
        continue;
      }
      if (i > from) this.#deliver(first + from, left.subarray(from, i), right.subarray(from, i), at);
      from = i + 1;
      this.#miss(n, kind, at);
    }
    if (from < left.length) this.#deliver(first + from, left.subarray(from), right.subarray(from), at);
    this.#counted(first, first + left.length, at);
  }

  /** Tells the gap that is open, if there is one. */
  closeGap(at: MonotonicNanoseconds): void {
    const open = this.#open;
    if (open === undefined) return;
    this.#open = undefined;
    if (open.said) this.#status('returned', 'The plates send again.', at);
    this.gaps++;
    this.missing += open.count;
    this.#emit({ kind: 'gap', first: open.first, count: open.count, cause: causes[open.kind], at });
  }

  #miss(n: number, kind: Missing['kind'], at: MonotonicNanoseconds): void {
    if (this.#open !== undefined && this.#open.kind !== kind) this.closeGap(at);
    this.#open ??= { first: n, count: 0, kind, said: false };
    const open = this.#open;
    open.count++;
    if (open.said) return;
    if (kind === 'unplug') this.#status('lost', 'The plates were unplugged.', at);
    else if (kind === 'stall' && open.count >= silence * this.#rate) {
      this.#status('quiet', 'The plates send nothing.', at);
    } else return;
    open.said = true;
  }

  #status(state: 'lost' | 'quiet' | 'returned', words: string, at: MonotonicNanoseconds): void {
    this.#emit({ kind: 'status', state, words, at });
  }

  #deliver(first: number, left: Float64Array, right: Float64Array, at: MonotonicNanoseconds): void {
    const count = left.length;
    const values = new Float64Array(2 * count);
    values.set(left, 0);
    values.set(right, count);
    this.samples += count;
    this.#emit({ kind: 'samples', first, count, values, at });
  }

  /** Doubled, late and swapped packets whose moment lies in [start, end); they take no sample. */
  #counted(start: number, end: number, at: MonotonicNanoseconds): void {
    for (const fault of this.#faults) {
      if (fault.kind === 'doubled') {
        // The packet that holds `from`, and the ones after it.
        const first = fault.from - (fault.from % this.#packet);
        if (start >= first && start < first + fault.packets * this.#packet) {
          this.#emit({ kind: 'fault', fault: 'doubled', count: 1, near: start, at });
        }
      } else if (fault.kind === 'swapped') {
        // It comes with the packet after it, and is put in order before that.
        const after = fault.from - (fault.from % this.#packet) + this.#packet;
        if (after >= start && after < end)
          this.#emit({ kind: 'fault', fault: 'swapped', count: 1, near: fault.from, at });
      } else if (fault.kind === 'late') {
        const due = fault.from + fault.count + fault.by;
        const count = Math.ceil(fault.count / this.#packet);
        if (due >= start && due < end) this.#emit({ kind: 'fault', fault: 'late', count, near: fault.from, at });
      }
    }
  }
}
