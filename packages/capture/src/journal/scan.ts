import { type Frame, frameMagic, headBytes, readFrame } from './frame.ts';
import { boundarySignature, parseHead, type SegmentHead } from './segment-head.ts';

/** A place of a segment where no whole frame could be read: [start, end) in bytes. */
export interface BadPlace {
  readonly start: number;
  readonly end: number;
  /** `cut`: the file ends inside a frame. `damaged`: bytes are not what was written. */
  readonly fault: 'cut' | 'damaged';
}

/** A frame with the bytes it was read from. */
export interface ScannedFrame extends Frame {
  readonly raw: Uint8Array;
}

/** What is whole in one segment. */
export interface SegmentScan {
  /** Numbered frames with rising numbers. */
  readonly frames: readonly ScannedFrame[];
  /** The largest confirmed position that a head or boundary of it names. */
  readonly confirmedSample: number;
  readonly bad: readonly BadPlace[];
}

/** Head and tag of a segment: from its first frame, or from the first whole boundary behind damage. */
export function findHead(bytes: Uint8Array, capture: string): { head: SegmentHead; tag: number } | undefined {
  for (let at = 0; at >= 0; at = nextBoundary(bytes, at + 1)) {
    const found = readFrame(bytes, at);
    if (!found.ok || (found.frame.kind !== 'segment' && found.frame.kind !== 'boundary')) continue;
    const head = parseHead(found.frame.kind, found.frame.payload);
    if (head?.capture === capture) return { head, tag: found.frame.tag };
  }
  return undefined;
}

/** Start of the next frame that holds a boundary signature, from `from` on; -1 when there is none. */
function nextBoundary(bytes: Uint8Array, from: number): number {
  const first = boundarySignature[0] as number;
  for (let at = bytes.indexOf(first, from + headBytes); at >= 0; at = bytes.indexOf(first, at + 1)) {
    if (boundarySignature.every((byte, i) => bytes[at + i] === byte)) return at - headBytes;
  }
  return -1;
}

/**
 * Reads one segment forward. At a bad frame it stops, and goes on at the next place where a frame of this capture with a
 * higher number is whole: usually the frame behind, at the latest the next boundary. Nothing is repaired or guessed.
 *
 * @param tag the capture's; frames with another are not its own
 */
export function scanSegment(bytes: Uint8Array, tag: number): SegmentScan {
  const frames: ScannedFrame[] = [];
  const bad: BadPlace[] = [];
  let confirmedSample = 0;
  let last = -1;
  let at = 0;
  let badSince: number | undefined;
  let cut = false;
  const endBad = (end: number, fault: BadPlace['fault']) => {
    if (badSince !== undefined) bad.push({ start: badSince, end, fault });
    badSince = undefined;
  };
  while (at < bytes.length) {
    const found = readFrame(bytes, at);
    if (found.ok && found.frame.tag === tag && found.frame.sequence > last) {
      endBad(at, 'damaged');
      const { kind, payload } = found.frame;
      if (kind === 'segment' || kind === 'boundary') {
        const read = parseHead(kind, payload);
        confirmedSample = Math.max(confirmedSample, read?.confirmedSample ?? 0);
      } else {
        frames.push({ ...found.frame, raw: bytes.subarray(at, found.end) });
        last = found.frame.sequence;
      }
      at = found.end;
      continue;
    }
    if (badSince === undefined) cut = !found.ok && found.fault === 'cut';
    badSince ??= at;
    // A whole frame that is not ours, doubled, or of an unknown kind is stepped over; its content is not searched.
    at = found.ok ? found.end : nextMagic(bytes, at + 1);
  }
  endBad(bytes.length, cut ? 'cut' : 'damaged');
  return { frames, bad, confirmedSample };
}

function nextMagic(bytes: Uint8Array, from: number): number {
  for (
    let at = bytes.indexOf(frameMagic[0] as number, from);
    at >= 0;
    at = bytes.indexOf(frameMagic[0] as number, at + 1)
  ) {
    if (bytes[at + 1] === frameMagic[1] && bytes[at + 2] === frameMagic[2] && bytes[at + 3] === frameMagic[3])
      return at;
  }
  return bytes.length;
}
