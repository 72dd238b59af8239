import { frameCodec } from '../codec/frames/frame-codec.ts';
import type { FrameLayout } from '../description.ts';
import { findChecksum } from './find-checksum.ts';
import { findFields } from './find-fields.ts';
import type { ProposedLayout } from './recognise.ts';

const longest = 512;
const leastFrames = 8;

/** Frames of fixed length, found by bytes that repeat with a period. */
export function recogniseFrames(bytes: Uint8Array): ProposedLayout[] {
  for (let length = 4; length <= Math.min(longest, Math.floor(bytes.length / leastFrames)); length++) {
    for (const { at, sync } of constantRuns(bytes, length)) {
      const proposals = framesFrom(bytes, length, at, sync).filter(({ fits }) => fits > 0.9);
      if (proposals.length > 0) return proposals;
    }
  }
  return [];
}

/** Places in a period whose byte is the same in at least 95 % of the periods, as runs; the likeliest sync bytes first. */
function constantRuns(bytes: Uint8Array, length: number): { at: number; sync: number[] }[] {
  const periods = Math.floor(bytes.length / length);
  const constant: (number | undefined)[] = [];
  for (let place = 0; place < length; place++) constant.push(constantAt(bytes, length, place, periods));
  if (constant.every((value) => value !== undefined)) return [];
  const runs: { at: number; sync: number[] }[] = [];
  for (let place = 0; place < length; place++) {
    // A run may lie across the end of the period; it begins where the byte before varies.
    if (constant[place] === undefined || constant[(place + length - 1) % length] !== undefined) continue;
    const sync: number[] = [];
    for (let i = place; constant[i % length] !== undefined && sync.length < 4; i++)
      sync.push(constant[i % length] as number);
    // Zeros and all-ones are idle high bytes of numbers more often than marks.
    const lead = sync.findIndex((value) => value !== 0 && value !== 255);
    if (lead < 0) continue;
    let kept = sync.slice(lead);
    while (kept.length > 1 && kept.at(-1) === 0) kept = kept.slice(0, -1);
    runs.push({ at: (place + lead) % length, sync: kept });
  }
  return runs.sort((a, b) => b.sync.length - a.sync.length);
}

/** The byte that stands at a place of at least 95 % of the periods. Noise is told by three looks, so that it costs nearly nothing. */
function constantAt(bytes: Uint8Array, length: number, place: number, periods: number): number | undefined {
  const first = bytes[place] as number;
  const middle = bytes[(periods >> 1) * length + place] as number;
  const last = bytes[(periods - 1) * length + place] as number;
  const likely = first === middle || first === last ? first : middle === last ? middle : undefined;
  if (likely === undefined) return undefined;
  let wrong = 0;
  for (let k = 0; k < periods; k++)
    if (bytes[k * length + place] !== likely && ++wrong > 0.05 * periods) return undefined;
  return likely;
}

function framesFrom(bytes: Uint8Array, length: number, at: number, sync: readonly number[]): ProposedLayout[] {
  const frames: Uint8Array[] = [];
  for (let start = at; start + length <= bytes.length; start += length) {
    const frame = bytes.subarray(start, start + length);
    if (sync.every((value, i) => frame[i] === value)) frames.push(frame);
  }
  if (frames.length < leastFrames) return [];
  const { checksum, width, reason } = findChecksum(frames, sync.length);
  const hex = sync.map((value) => value.toString(16).padStart(2, '0')).join(' ');
  return findFields(frames, { from: sync.length, to: length - width }).map((found) => {
    const { endian, head, sample, samples, channels } = found;
    const layout: FrameLayout = { kind: 'frames', sync: hex, endian, head, sample, samples, checksum };
    return {
      layout,
      channels,
      fits: fitOf(layout, channels, bytes, Math.floor((bytes.length - at) / length)),
      reasons: [
        `The bytes ${hex} return every ${length} bytes.`,
        ...(reason === undefined ? [] : [reason]),
        ...found.reasons,
      ],
    };
  });
}

/** Share of the frames that could be there which the layout reads; a little less without a checksum to prove it. */
function fitOf(layout: FrameLayout, channels: readonly string[], bytes: Uint8Array, possible: number): number {
  let samples = 0;
  const codec = frameCodec(layout, channels, {
    run: ({ count }) => {
      samples += count;
    },
    damage: () => {},
  });
  codec.feed(bytes);
  codec.end();
  const share = samples / layout.samples / Math.max(1, possible);
  return Math.min(1, share * (layout.checksum.kind === 'none' ? 0.95 : 1));
}
