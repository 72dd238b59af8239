import { performance } from 'node:perf_hooks';
import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import type { CaptureClock } from '../../src/clock/clock.ts';
import type { Packet } from '../../src/packets/packet.ts';

/** This machine's clocks. */
export const machineClock: CaptureClock = {
  monotonic: () => BigInt(Math.round(performance.now() * 1e6)) as MonotonicNanoseconds,
  wall: () => new Date().toISOString() as UtcInstant,
};

export const pause = (ms: number) => new Promise<void>((go) => setTimeout(go, ms));

/** Packets as they come, and a way to wait for some. */
export function collector() {
  const packets: Packet[] = [];
  return {
    packets,
    emit: (packet: Packet) => void packets.push(packet),
    states: () => packets.flatMap((packet) => (packet.kind === 'status' ? [packet.state] : [])),
    samples: () => packets.reduce((sum, packet) => sum + (packet.kind === 'samples' ? packet.count : 0), 0),
    async until(what: string, when: () => boolean, ms = 8000) {
      const end = performance.now() + ms;
      while (!when()) {
        if (performance.now() > end)
          throw new Error(
            `waited ${ms} ms for ${what}; got ${JSON.stringify(packets.map(({ kind }) => kind).slice(-8))}`,
          );
        await pause(5);
      }
    },
  };
}
