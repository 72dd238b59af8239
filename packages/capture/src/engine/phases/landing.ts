import { leastStanding } from '@sthene/core';
import type { Block } from '../stream/block.ts';
import { momentsOver, rangeOver, totalOf } from '../stream/window.ts';

/** A stance is seen to begin after this share of the time it must last. */
const seen = 0.3;

/**
 * Whether somebody stands still after a landing.
 *
 * @param recent whole blocks since the landing, in a row, the last `need` of them
 * @param share largest distance of 20 ms means from their mean, as a share of it
 */
export function settled(
  recent: readonly Block[],
  need: number,
  share: number,
): { readonly still: boolean; readonly standing: boolean } {
  const short = Math.max(1, Math.ceil(seen * need));
  return {
    still: recent.length >= need && isStill(recent, share),
    standing: recent.length >= short && isStill(recent.slice(-short), share),
  };
}

function isStill(blocks: readonly Block[], share: number): boolean {
  const { mean } = momentsOver(blocks, totalOf);
  return mean >= leastStanding && rangeOver(blocks) <= 2 * share * mean;
}
