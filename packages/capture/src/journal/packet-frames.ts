import type { MonotonicNanoseconds, SampleIndex } from '@sthene/core';
import type { Packet, SamplesPacket } from '../packets/packet.ts';
import type { Frame } from './frame.ts';
import { longestPayload } from './frame.ts';
import { decodeSamples, encodeSamples } from './samples-payload.ts';

/** The part of a frame that a packet decides; tag and sequence are the journal's. */
export type FrameBody = Pick<Frame, 'kind' | 'sample' | 'deviceTime' | 'at' | 'payload'>;

const encoder = new TextEncoder();
const decoder = new TextDecoder('utf-8', { fatal: true });

/** JSON as UTF-8 bytes. */
export const jsonBytes = (value: unknown): Uint8Array => encoder.encode(JSON.stringify(value));

/** The object a JSON payload holds; undefined when it holds none. */
export function jsonObject(payload: Uint8Array): Record<string, unknown> | undefined {
  try {
    const value: unknown = JSON.parse(decoder.decode(payload));
    return typeof value === 'object' && value !== null && !Array.isArray(value)
      ? (value as Record<string, unknown>)
      : undefined;
  } catch {
    return undefined;
  }
}

/** The field of each kind that goes into the frame's own sample index. */
const indexField = { gap: 'first', fault: 'near', mark: 'sample', clock: 'sample' } as const;

/** Fields a payload must have, with their types. */
const fields: Readonly<Record<Exclude<Packet['kind'], 'samples'>, Readonly<Record<string, string>>>> = {
  header: { source: 'string', promisedRate: 'number', channels: 'object', wallClock: 'string' },
  gap: { count: 'number', cause: 'string' },
  fault: { fault: 'string', count: 'number' },
  status: { state: 'string', words: 'string' },
  mark: { label: 'string' },
  clock: { wallClock: 'string' },
  end: { samples: 'number', gaps: 'number', missing: 'number' },
};

/**
 * A packet as frame bodies: one, or several for a run of samples too long for one frame.
 *
 * @param next index of the next sample, for packets that name none
 */
export function bodiesOf(packet: Packet, next: SampleIndex): FrameBody[] {
  if (packet.kind === 'samples') return piecesOf(packet).map(samplesBody);
  const { kind, at, ...rest } = packet;
  if (!(kind in indexField)) return [{ kind, at, sample: next, payload: jsonBytes(rest) }];
  const field = indexField[kind as keyof typeof indexField];
  const { [field]: sample, ...others } = rest as Record<string, unknown>;
  return [{ kind, at, sample: sample as number, payload: jsonBytes(others) }];
}

function samplesBody(packet: SamplesPacket): FrameBody {
  const { first, count, values, deviceTime, at } = packet;
  const payload = encodeSamples(count, values);
  return deviceTime === undefined
    ? { kind: 'samples', at, sample: first, payload }
    : { kind: 'samples', at, sample: first, payload, deviceTime };
}

function piecesOf(packet: SamplesPacket): SamplesPacket[] {
  const { first, count, values, at } = packet;
  const channels = count === 0 ? 0 : values.length / count;
  const most = Math.max(1, Math.floor((longestPayload - 64) / 8 / Math.max(1, channels)));
  if (count <= most) return [packet];
  const pieces: SamplesPacket[] = [];
  for (let from = 0; from < count; from += most) {
    const size = Math.min(most, count - from);
    const piece = new Float64Array(size * channels);
    for (let c = 0; c < channels; c++) piece.set(values.subarray(c * count + from, c * count + from + size), c * size);
    // The device told the time of the first sample only.
    const time = from === 0 && packet.deviceTime !== undefined ? { deviceTime: packet.deviceTime } : {};
    pieces.push({ kind: 'samples', first: first + from, count: size, values: piece, at, ...time });
  }
  return pieces;
}

/** The packet a frame holds; undefined for frames of the journal itself and for payloads that break a rule. */
export function packetOf(frame: FrameBody): Packet | undefined {
  const { kind, at, sample } = frame;
  if (kind === 'samples') {
    const read = decodeSamples(frame.payload);
    if (read === undefined) return undefined;
    const time = frame.deviceTime === undefined ? {} : { deviceTime: frame.deviceTime };
    return { kind, first: sample, ...read, ...time, at };
  }
  if (!(kind in fields)) return undefined;
  const payload = jsonObject(frame.payload);
  if (payload === undefined) return undefined;
  const wanted = fields[kind as keyof typeof fields];
  if (Object.entries(wanted).some(([name, type]) => typeof payload[name] !== type)) return undefined;
  const index = kind in indexField ? { [indexField[kind as keyof typeof indexField]]: sample } : {};
  return { ...payload, ...index, kind, at: at as MonotonicNanoseconds } as unknown as Packet;
}
