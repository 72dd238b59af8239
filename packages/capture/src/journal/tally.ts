import type { Packet } from '../packets/packet.ts';

/** What a capture holds, counted. */
export interface JournalCounts {
  /** Samples received, each once. */
  readonly samples: number;
  /** Gaps, and the samples missing in them. */
  readonly gaps: number;
  readonly missing: number;
  readonly marks: number;
  readonly faults: number;
  /** Index of the first sample or gap, and the index after the last; equal when there is none. */
  readonly firstSample: number;
  readonly endSample: number;
}

/** Counts packets as they pass, and finds holes between them. */
export class Tally {
  #samples = 0;
  #gaps = 0;
  #missing = 0;
  #marks = 0;
  #faults = 0;
  #first: number | undefined;
  #next: number | undefined;

  /** Begins at a known index instead of at the first sample seen. */
  expect(next: number | undefined): void {
    if (this.#next === undefined && next !== undefined) {
      this.#first = next;
      this.#next = next;
    }
  }

  /** Index of the next sample; undefined before the first. */
  get next(): number | undefined {
    return this.#next;
  }

  /** Samples missing before a packet that names none: [first, first + count). */
  holeBefore(packet: Packet): { first: number; count: number } | undefined {
    if ((packet.kind !== 'samples' && packet.kind !== 'gap') || this.#next === undefined) return undefined;
    return packet.first > this.#next ? { first: this.#next, count: packet.first - this.#next } : undefined;
  }

  add(packet: Packet): void {
    if (packet.kind === 'mark') this.#marks++;
    if (packet.kind === 'fault') this.#faults += packet.count;
    if (packet.kind !== 'samples' && packet.kind !== 'gap') return;
    this.#first ??= packet.first;
    const next = this.#next ?? packet.first;
    const end = packet.first + packet.count;
    // Only what lies beyond the last index is new; a sample that comes twice counts once.
    const fresh = Math.max(0, end - Math.max(next, packet.first));
    if (packet.kind === 'samples') this.#samples += fresh;
    else {
      this.#gaps++;
      this.#missing += fresh;
    }
    this.#next = Math.max(next, end);
  }

  counts(): JournalCounts {
    return {
      samples: this.#samples,
      gaps: this.#gaps,
      missing: this.#missing,
      marks: this.#marks,
      faults: this.#faults,
      firstSample: this.#first ?? 0,
      endSample: this.#next ?? 0,
    };
  }
}
