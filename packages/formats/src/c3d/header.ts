import type { NumberReader } from './numbers.ts';

/** Bytes of one block, the unit of storage. */
export const blockSize = 512;

/** The value that marks "event labels of four characters follow" in the header. */
const eventKey = 12345;

/** A labelled time of the header block. */
export interface HeaderEvent {
  readonly label: string;
  /** Seconds from the first sample. */
  readonly time: number;
}

/** What the header block says; the parameter section repeats most of it and wins where both speak. */
export interface C3dHeader {
  readonly points: number;
  /** Analog values in one 3D frame: channels times samples per frame. */
  readonly analogPerFrame: number;
  readonly firstFrame: number;
  readonly lastFrame: number;
  /** Negative means that the data section holds floats. */
  readonly scale: number;
  readonly dataStart: number;
  readonly samplesPerFrame: number;
  readonly frameRate: number;
  readonly events: readonly HeaderEvent[];
}

/** Text of single bytes: UTF-8 where it is valid, else one character a byte; blanks and zeros at the ends removed. */
export function textOf(bytes: Uint8Array): string {
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    text = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  }
  return text.replaceAll('\0', ' ').trim();
}

/**
 * Reads the header block.
 *
 * The status byte of an event is not looked at: editions of the standard disagree which value means "on", and an event
 * must never be lost to that.
 *
 * @param bytes the first 512 bytes of the file
 * @param read numbers of the file's processor over the same bytes
 *
 * Source: C3D User Guide, header section (c3d.org).
 */
export function readHeader(bytes: Uint8Array, read: NumberReader): C3dHeader {
  const events: HeaderEvent[] = [];
  if (read.uint16(298) === eventKey) {
    const count = Math.min(read.uint16(300), 18);
    for (let i = 0; i < count; i++) {
      events.push({ label: textOf(bytes.subarray(396 + 4 * i, 400 + 4 * i)), time: read.float32(304 + 4 * i) });
    }
  }
  return {
    points: read.uint16(2),
    analogPerFrame: read.uint16(4),
    firstFrame: read.uint16(6),
    lastFrame: read.uint16(8),
    scale: read.float32(12),
    dataStart: read.uint16(16),
    samplesPerFrame: read.uint16(18),
    frameRate: read.float32(20),
    events,
  };
}
