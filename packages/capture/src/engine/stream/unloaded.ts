import type { SampleSpan, ZeroRules } from '@sthene/core';
import type { Block, Moments } from './block.ts';
import { momentsOver, totalOf } from './window.ts';

/** A quiet second of plates that nobody stands on. */
export interface QuietWindow {
  readonly span: SampleSpan;
  /** Mean of the total by the present zero. */
  readonly total: number;
  /** SD of the total. */
  readonly sd: number;
  /** Largest size of a plate's mean by the present zero. */
  readonly largest: number;
}

/** Watches unloaded plates for a quiet second. */
export class Unloaded {
  readonly #rules: ZeroRules;
  #blocks: Block[] = [];
  /** First sample since which plates were unloaded without a break. */
  since: number | undefined;
  /** Latest quiet second of this unloaded time. */
  quiet: QuietWindow | undefined;

  constructor(rules: ZeroRules) {
    this.#rules = rules;
  }

  reset(): void {
    this.#blocks = [];
    this.since = undefined;
    this.quiet = undefined;
  }

  /** @param empty nobody stands on the plates, as far as known */
  update(block: Block, empty: boolean, rate: number): void {
    if (!empty || !block.whole) {
      this.reset();
      return;
    }
    this.since ??= block.start;
    this.#blocks.push(block);
    const width = block.end - block.start;
    const need = Math.max(5, Math.ceil((this.#rules.quietSeconds * rate) / width));
    if (this.#blocks.length > need) this.#blocks.shift();
    this.quiet = this.#blocks.length === need ? this.#quietest() : undefined;
  }

  #quietest(): QuietWindow | undefined {
    const blocks = this.#blocks;
    let largest = 0;
    const plates = (blocks[0] as Block).plates.length;
    for (let p = 0; p < plates; p++) {
      const of = (block: Block) => block.plates[p] as Moments;
      const { mean, sd } = momentsOver(blocks, of);
      if (sd > this.#rules.sd) return undefined;
      // Something that has just been put down is not yet seen in a fifth.
      if (Math.abs(of(blocks.at(-1) as Block).mean - mean) > 2 * this.#rules.wander) return undefined;
      let low = Number.POSITIVE_INFINITY;
      let high = Number.NEGATIVE_INFINITY;
      for (let fifth = 0; fifth < 5; fifth++) {
        const from = Math.floor((fifth * blocks.length) / 5);
        const part = momentsOver(blocks, of, from, Math.floor(((fifth + 1) * blocks.length) / 5)).mean;
        low = Math.min(low, part);
        high = Math.max(high, part);
      }
      if (high - low > this.#rules.wander) return undefined;
      largest = Math.max(largest, Math.abs(mean));
    }
    const span = { start: (blocks[0] as Block).start, end: (blocks.at(-1) as Block).end };
    const { mean, sd } = momentsOver(blocks, totalOf);
    return { span, total: mean, sd, largest };
  }
}
