import type { MonotonicNanoseconds, SampleIndex } from '@sthene/core';
import { crc32c } from './crc32c.ts';

/** What a frame holds. The numbers stand in files and never change; docs/reference/journal-format.md lists them. */
export const frameKinds = {
  segment: 1,
  boundary: 2,
  samples: 3,
  gap: 4,
  fault: 5,
  status: 6,
  mark: 7,
  clock: 8,
  end: 9,
  header: 10,
  closing: 11,
  seal: 12,
} as const;
export type FrameKind = keyof typeof frameKinds;

const kindOf: ReadonlyMap<number, FrameKind> = new Map(
  Object.entries(frameKinds).map(([kind, code]) => [code, kind as FrameKind]),
);

/** First four bytes of every frame: a byte that begins no UTF-8 text, then `SJF`. */
export const frameMagic = Uint8Array.of(0xf5, 0x53, 0x4a, 0x46);
export const frameVersion = 1;
/** Bytes before the payload, and with the sum behind it. */
export const headBytes = 48;
export const frameOverhead = headBytes + 4;
/** A length beyond this is damage; the journal splits what is longer. */
export const longestPayload = 4 * 1024 * 1024;

const hasDeviceTime = 1;

/** One record of a journal. */
export interface Frame {
  readonly kind: FrameKind;
  /** The same in all frames of one capture, so that a stray block of another is not taken for its own. */
  readonly tag: number;
  /** Counts the capture's frames from 0. Segment and boundary frames carry the number of the frame that follows them. */
  readonly sequence: number;
  readonly sample: SampleIndex;
  /** s, by the device's own clock. */
  readonly deviceTime?: number;
  readonly at: MonotonicNanoseconds;
  readonly payload: Uint8Array;
}

/** A frame as bytes, ready to be written. All numbers are little-endian. */
export function encodeFrame(frame: Frame): Uint8Array {
  const { payload } = frame;
  if (payload.length > longestPayload) throw new RangeError('A frame holds at most 4 MiB.');
  const bytes = new Uint8Array(frameOverhead + payload.length);
  const view = new DataView(bytes.buffer);
  bytes.set(frameMagic);
  bytes[4] = frameVersion;
  bytes[5] = frameKinds[frame.kind];
  view.setUint16(6, frame.deviceTime === undefined ? 0 : hasDeviceTime, true);
  view.setUint32(8, payload.length, true);
  view.setUint32(12, frame.tag, true);
  view.setBigUint64(16, BigInt(frame.sequence), true);
  view.setFloat64(24, frame.sample, true);
  view.setFloat64(32, frame.deviceTime ?? 0, true);
  view.setBigInt64(40, frame.at, true);
  bytes.set(payload, headBytes);
  view.setUint32(bytes.length - 4, crc32c(bytes, 0, bytes.length - 4), true);
  return bytes;
}

/** Why there is no frame at a place. `unknown`: a whole frame of a kind or version this program does not know. */
export type FrameFault = 'no-magic' | 'cut' | 'damaged' | 'unknown';
export type FrameFound =
  | { readonly ok: true; readonly frame: Frame; readonly end: number }
  | { readonly ok: false; readonly fault: FrameFault };

const fail = (fault: FrameFault): FrameFound => ({ ok: false, fault });

/** Reads the frame at `start`. Nothing of it is believed before its sum fits. The payload is a view, not a copy. */
export function readFrame(bytes: Uint8Array, start: number): FrameFound {
  for (let i = 0; i < 4; i++) {
    if (start + i >= bytes.length) return fail('cut');
    if (bytes[start + i] !== frameMagic[i]) return fail('no-magic');
  }
  if (start + frameOverhead > bytes.length) return fail('cut');
  const view = new DataView(bytes.buffer, bytes.byteOffset + start, bytes.length - start);
  const length = view.getUint32(8, true);
  if (length > longestPayload) return fail('damaged');
  const end = start + frameOverhead + length;
  if (end > bytes.length) return fail('cut');
  if (crc32c(bytes, start, end - 4) !== view.getUint32(headBytes + length, true)) return fail('damaged');
  const kind = kindOf.get(bytes[start + 5] as number);
  if (bytes[start + 4] !== frameVersion || kind === undefined) return fail('unknown');
  const deviceTime = view.getUint16(6, true) & hasDeviceTime ? view.getFloat64(32, true) : undefined;
  return {
    ok: true,
    end,
    frame: {
      kind,
      tag: view.getUint32(12, true),
      sequence: Number(view.getBigUint64(16, true)),
      sample: view.getFloat64(24, true),
      ...(deviceTime === undefined ? {} : { deviceTime }),
      at: view.getBigInt64(40, true) as MonotonicNanoseconds,
      payload: bytes.subarray(start + headBytes, end - 4),
    },
  };
}
