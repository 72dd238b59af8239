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
      const proposal = framesFrom(bytes, length, at, sync);
      if (proposal !== undefined && proposal.fits > 0.9) return [proposal];
    }
  }
  return [];
}

/** Places in a period whose byte is the same in at least 95 % of the periods, as runs; the likeliest sync bytes first. */
function constantRuns(bytes: Uint8Array, length: number): { at: number; sync: number[] }[] {
  const periods = Math.floor(bytes.length / length);
  const constant: (number | undefined)[] = [];
  for (let place = 0; place < length; place++) {
    const counts = new Uint32Array(256);
    for (let k = 0; k < periods; k++) counts[bytes[k * length + place] as number]!++;
    let best = 0;
    for (let value = 1; value < 256; value++) if ((counts[value] as number) > (counts[best] as number)) best = value;
    constant.push((counts[best] as number) >= 0.95 * periods ? best : undefined);
  }
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

function framesFrom(
  bytes: Uint8Array,
  length: number,
  at: number,
  sync: readonly number[],
): ProposedLayout | undefined {
  const frames: Uint8Array[] = [];
  for (let start = at; start + length <= bytes.length; start += length) {
    const frame = bytes.subarray(start, start + length);
    if (sync.every((value, i) => frame[i] === value)) frames.push(frame);
  }
  if (frames.length < leastFrames) return undefined;
  const { checksum, width, reason } = findChecksum(frames, sync.length);
  const body = { from: sync.length, to: length - width };
  const found = findFields(frames, body);
  if (found === undefined) return undefined;
  const hex = sync.map((value) => value.toString(16).padStart(2, '0')).join(' ');
  const layout: FrameLayout = {
    kind: 'frames',
    sync: hex,
    endian: found.endian,
    head: found.head,
    sample: found.sample,
    samples: found.samples,
    checksum,
  };
  let samples = 0;
  const codec = frameCodec(layout, found.channels, {
    run: ({ count }) => {
      samples += count;
    },
    damage: () => {},
  });
  codec.feed(bytes);
  codec.end();
  const fits =
    (samples / found.samples / Math.max(1, Math.floor((bytes.length - at) / length))) *
    (checksum.kind === 'none' ? 0.95 : 1);
  return {
    layout,
    channels: found.channels,
    fits: Math.min(1, fits),
    reasons: [
      `The bytes ${hex} return every ${length} bytes.`,
      ...(reason === undefined ? [] : [reason]),
      ...found.reasons,
    ],
  };
}
