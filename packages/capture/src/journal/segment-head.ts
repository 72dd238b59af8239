import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import type { HeaderPacket, StreamChannel } from '../packets/packet.ts';
import { jsonBytes, jsonObject } from './packet-frames.ts';

export const journalFormat = 'sthene.journal/1';

/**
 * What a reader must know before any sample. It opens every segment and stands again in every boundary frame, so that no
 * single damaged place takes it away.
 */
export interface SegmentHead {
  readonly format: typeof journalFormat;
  readonly capture: string;
  readonly session: string;
  /** 0-based number of the segment. */
  readonly segment: number;
  /** The packet that opened the stream. */
  readonly header: HeaderPacket;
  /** Index of the first sample at or after this place; absent while none had come. */
  readonly nextSample?: number;
  /** End of what was known to be safe when this was written: a sample index. */
  readonly confirmedSample: number;
  /** Segments whose sync or write failed; what they held unconfirmed was written again behind them. */
  readonly suspects: readonly number[];
}

/** Begins the payload of each boundary frame; a reader that lost its place looks for these 16 bytes. */
export const boundarySignature = Uint8Array.of(
  ...[0x9c, 0x1e, 0xd3, 0x57, 0xb8, 0x42, 0xf0, 0x6b, 0xa5, 0x0d, 0xe9, 0x74, 0xc6, 0x31, 0x8f, 0xda],
);

/** The head as JSON; monotonic times as decimal text, because JSON has no such integers. */
export function headBytesOf(head: SegmentHead): Uint8Array {
  return jsonBytes({ ...head, header: { ...head.header, at: String(head.header.at) } });
}

export function boundaryPayload(head: SegmentHead): Uint8Array {
  const json = headBytesOf(head);
  const payload = new Uint8Array(boundarySignature.length + json.length);
  payload.set(boundarySignature);
  payload.set(json, boundarySignature.length);
  return payload;
}

/** Reads the payload of a segment or boundary frame; undefined when it is none, or of another format. */
export function parseHead(kind: 'segment' | 'boundary', payload: Uint8Array): SegmentHead | undefined {
  const skip = kind === 'boundary' ? boundarySignature.length : 0;
  for (let i = 0; i < skip; i++) if (payload[i] !== boundarySignature[i]) return undefined;
  const json = jsonObject(payload.subarray(skip));
  const header = json?.header as Record<string, unknown> | undefined;
  if (json?.format !== journalFormat || typeof header !== 'object' || header === null) return undefined;
  const { capture, session, segment, confirmedSample, nextSample, suspects } = json;
  const { source, promisedRate, channels, at, wallClock } = header;
  if (typeof capture !== 'string' || typeof session !== 'string' || typeof segment !== 'number') return undefined;
  if (typeof confirmedSample !== 'number' || !Array.isArray(suspects)) return undefined;
  if (typeof source !== 'string' || typeof promisedRate !== 'number' || !Array.isArray(channels)) return undefined;
  if (typeof at !== 'string' || !/^-?\d{1,19}$/.test(at) || typeof wallClock !== 'string') return undefined;
  return {
    format: journalFormat,
    capture,
    session,
    segment,
    header: {
      kind: 'header',
      source,
      ...(typeof header.device === 'string' ? { device: header.device } : {}),
      promisedRate,
      channels: channels as StreamChannel[],
      at: BigInt(at) as MonotonicNanoseconds,
      wallClock: wallClock as UtcInstant,
    },
    ...(typeof nextSample === 'number' ? { nextSample } : {}),
    confirmedSample,
    suspects: suspects as number[],
  };
}
