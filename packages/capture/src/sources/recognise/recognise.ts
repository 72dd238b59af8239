import type { FrameLayout, LineLayout } from '../description.ts';
import { recogniseFrames } from './frames.ts';
import { recogniseLines } from './lines.ts';

/** A layout that would fit, the share of the bytes it reads, and why it was proposed. */
export interface ProposedLayout {
  readonly layout: LineLayout | FrameLayout;
  /** Names the layout's fields use. */
  readonly channels: readonly string[];
  /** Share of the bytes that are whole samples by this layout, 0 to 1. */
  readonly fits: number;
  /** Sentences for people. */
  readonly reasons: readonly string[];
}

/** Bytes that are looked at, at most. */
const looked = 16_384;

/**
 * Proposes layouts for bytes of an unknown device: text lines with usual delimiters, or frames of fixed length found by their
 * sync bytes' period. Something has to move on the plates meanwhile: bytes that never change look like marks.
 * A proposal is for a person to look at; nothing is chosen. Empty when nothing usual fits. Text that reads well as lines is not
 * offered as frames, whatever periods it may have.
 */
export function recogniseLayout(bytes: Uint8Array): ProposedLayout[] {
  const some = bytes.subarray(Math.max(0, bytes.length - looked));
  const lines = recogniseLines(some);
  const text = lines.some(({ fits }) => fits > 0.8);
  return [...lines, ...(text ? [] : recogniseFrames(some))].sort((a, b) => b.fits - a.fits);
}
