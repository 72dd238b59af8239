import type { HeaderPacket, Packet, SamplesPacket } from '../packets/packet.ts';

/** The last seconds of a stream, always at hand, so that an effort nobody started can still be kept. */
export interface RecentBuffer {
  push(packet: Packet): void;
  /** The header in force, then all packets of samples [from, to); runs of samples are cut to fit. */
  keep(from: number, to: number): Packet[];
  /** Samples at hand: [start, end). */
  span(): { readonly start: number; readonly end: number };
}

/**
 * Keeps packets of the last `seconds`, measured in samples at the promised rate, so that a stall of the clock or of the
 * station forgets nothing.
 */
export function recentBuffer(seconds = 60): RecentBuffer {
  let header: HeaderPacket | undefined;
  let held: { packet: Packet; start: number; end: number }[] = [];
  let gone = 0;
  let next: number | undefined;
  let first = 0;
  return {
    push(packet) {
      if (packet.kind === 'header') header = packet;
      const span = spanOf(packet, next ?? 0);
      if (packet.kind === 'samples' || packet.kind === 'gap') {
        if (next === undefined) first = span.start;
        next = Math.max(next ?? 0, span.end);
      }
      if (packet.kind !== 'header') held.push({ packet, ...span });
      const oldest = (next ?? 0) - seconds * (header?.promisedRate ?? Number.POSITIVE_INFINITY);
      while (gone < held.length && (held[gone] as { end: number }).end < oldest) gone++;
      first = Math.max(first, Math.min(next ?? 0, Math.ceil(oldest)));
      // Cutting the front off now and then costs less than at every packet.
      if (gone > 1024 && gone > held.length / 2) {
        held = held.slice(gone);
        gone = 0;
      }
    },
    keep(from, to) {
      const kept: Packet[] = header === undefined ? [] : [header];
      for (let i = gone; i < held.length; i++) {
        const { packet, start, end } = held[i] as (typeof held)[number];
        const inside = start === end ? start >= from && start < to : end > from && start < to;
        if (inside) kept.push(cutTo(packet, from, to));
      }
      return kept;
    },
    span: () => ({ start: first, end: next ?? first }),
  };
}

function spanOf(packet: Packet, next: number): { start: number; end: number } {
  if (packet.kind === 'samples' || packet.kind === 'gap') {
    return { start: packet.first, end: packet.first + packet.count };
  }
  const at =
    packet.kind === 'mark' || packet.kind === 'clock' ? packet.sample : packet.kind === 'fault' ? packet.near : next;
  return { start: at, end: at };
}

function cutTo(packet: Packet, from: number, to: number): Packet {
  if (packet.kind !== 'samples' && packet.kind !== 'gap') return packet;
  const start = Math.max(packet.first, from);
  const end = Math.min(packet.first + packet.count, to);
  if (start === packet.first && end - start === packet.count) return packet;
  if (packet.kind === 'gap') return { ...packet, first: start, count: end - start };
  return samplesBetween(packet, start, end);
}

function samplesBetween(packet: SamplesPacket, start: number, end: number): SamplesPacket {
  const { count, values, first, at } = packet;
  const channels = count === 0 ? 0 : values.length / count;
  const size = end - start;
  const piece = new Float64Array(size * channels);
  for (let c = 0; c < channels; c++) {
    const from = c * count + start - first;
    piece.set(values.subarray(from, from + size), c * size);
  }
  // The device named the time of the run's first sample; of another one it did not.
  const time = start === first && packet.deviceTime !== undefined ? { deviceTime: packet.deviceTime } : {};
  return { kind: 'samples', first: start, count: size, values: piece, at, ...time };
}
