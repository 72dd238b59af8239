import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import type { HeaderPacket, Packet, SamplesPacket } from '../../packets/packet.ts';

/** A stream whose every value says which sample of which channel it is, so that any loss, swap or doubling shows. */
export const encodedValue = (sample: number, channel: number): number => sample * 16 + channel + 0.5;

export function encodedHeader(channels = 2, rate = 1000, at = 0n): HeaderPacket {
  return {
    kind: 'header',
    source: 'fernwater-plates',
    device: 'virtual-7',
    promisedRate: rate,
    channels: Array.from({ length: channels }, (_, c) => ({
      name: `c${c}`,
      plate: `plate ${c}`,
      side: c === 0 ? ('left' as const) : ('right' as const),
      axis: 'z' as const,
      unit: 'N',
      scale: 0.25,
      offset: 3,
    })),
    at: at as MonotonicNanoseconds,
    wallClock: '2026-03-14T09:00:00.000Z' as UtcInstant,
  };
}

export function encodedSamples(first: number, count: number, channels = 2, at = 0n): SamplesPacket {
  const values = new Float64Array(count * channels);
  for (let c = 0; c < channels; c++) {
    for (let i = 0; i < count; i++) values[c * count + i] = encodedValue(first + i, c);
  }
  return { kind: 'samples', first, count, values, at: at as MonotonicNanoseconds };
}

/** What a stream of packets holds of an encoded source, or the first thing wrong with it. */
export interface EncodedCheck {
  readonly wrong?: string;
  readonly received: ReadonlySet<number>;
  readonly missing: ReadonlySet<number>;
  readonly marks: readonly string[];
  readonly next: number;
}

/** Every sample in order, once, with its own value; every hole named by a gap. */
export function checkEncoded(packets: Iterable<Packet>, from?: number): EncodedCheck {
  const received = new Set<number>();
  const missing = new Set<number>();
  const marks: string[] = [];
  let wrong: string | undefined;
  let next = from;
  for (const packet of packets) {
    if (packet.kind === 'mark') marks.push(packet.label);
    if (packet.kind !== 'samples' && packet.kind !== 'gap') continue;
    if (next !== undefined && packet.first !== next)
      wrong ??= `expected sample ${next}, came ${packet.kind} ${packet.first}`;
    next = packet.first + packet.count;
    for (let i = 0; i < packet.count; i++) {
      const sample = packet.first + i;
      if (packet.kind === 'gap') {
        missing.add(sample);
        continue;
      }
      received.add(sample);
      const channels = packet.values.length / packet.count;
      for (let c = 0; c < channels; c++) {
        const value = packet.values[c * packet.count + i];
        if (value !== encodedValue(sample, c)) wrong ??= `sample ${sample} of channel ${c} is ${value}`;
      }
    }
  }
  return { ...(wrong === undefined ? {} : { wrong }), received, missing, marks, next: next ?? 0 };
}

/** All of an async iterable. */
export async function allOf<T>(from: AsyncIterable<T>): Promise<T[]> {
  const all: T[] = [];
  for await (const one of from) all.push(one);
  return all;
}
