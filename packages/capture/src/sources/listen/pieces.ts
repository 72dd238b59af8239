import { checkOf, framePlan } from '../codec/frames/frame-plan.ts';
import { lineCodec } from '../codec/lines/line-codec.ts';
import type { FrameLayout, LineLayout, SourceDescription } from '../description.ts';

/** Lines or frames in a piece of a stream, and how many of them can be read. */
export interface Pieces {
  readonly kind: 'lines' | 'frames';
  readonly found: number;
  /** Lines that are samples; frames whose checksum is right. */
  readonly right: number;
}

/**
 * Lines or frames in bytes, also where none of them is right: a frame is found where its sync bytes return after its length. Tells a
 * wrong checksum from a wrong layout. The ends of the bytes, where pieces are cut, are not counted.
 */
export function piecesIn(bytes: Uint8Array, description: SourceDescription): Pieces | undefined {
  const { layout } = description;
  if (layout === undefined) return undefined;
  const channels = description.channels.map(({ name }) => name);
  return layout.kind === 'lines' ? linesIn(bytes, layout, channels) : framesIn(bytes, layout, channels);
}

function linesIn(bytes: Uint8Array, layout: LineLayout, channels: readonly string[]): Pieces {
  let right = 0;
  let wrong = 0;
  const reader = { run: () => right++, damage: ({ count }: { count: number }) => (wrong += count) };
  lineCodec(layout, channels, reader).feed(bytes);
  return { kind: 'lines', found: right + wrong, right };
}

function framesIn(bytes: Uint8Array, layout: FrameLayout, channels: readonly string[]): Pieces {
  const plan = framePlan(layout, channels);
  const sumIsRight = checkOf(plan);
  const { length, sync } = plan;
  const syncAt = (at: number) => sync.every((value, i) => bytes[at + i] === value);
  let found = 0;
  let right = 0;
  for (let at = 0; at + length + sync.length <= bytes.length; ) {
    if (!syncAt(at) || !syncAt(at + length)) {
      at++;
      continue;
    }
    found++;
    if (sumIsRight(bytes, at)) right++;
    at += length;
  }
  return { kind: 'frames', found, right };
}
