import type { MonotonicNanoseconds, UtcInstant } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import type { Packet } from '../../src/packets/packet.ts';
import { CreateSourceError, type CreateSourcePorts, createSource } from '../../src/sources/create-source.ts';
import type { SourceDescription, Transport } from '../../src/sources/description.ts';
import { virtualDescription } from '../../src/sources/virtual/description.ts';
import { isVirtual } from '../../src/sources/virtual/virtual-plates.ts';
import { stillClock } from './rig.ts';

/** A clock and a schedule moved by hand. */
function handMoved() {
  let ms = 1000;
  const ticks = new Set<() => void>();
  const ports: CreateSourcePorts = {
    id: 'rig',
    clock: {
      monotonic: () => BigInt(Math.round(ms * 1e6)) as MonotonicNanoseconds,
      wall: () => new Date(Date.UTC(2026, 2, 28, 9) + ms).toISOString() as UtcInstant,
    },
    schedule: (tick, every) => {
      expect(every).toBe(20);
      ticks.add(tick);
      return () => ticks.delete(tick);
    },
  };
  const pass = (elapsed: number): void => {
    ms += elapsed;
    for (const tick of ticks) tick();
  };
  return { ports, pass, ticks };
}

const codeOf = (make: () => unknown): string | undefined => {
  try {
    make();
  } catch (error) {
    return error instanceof CreateSourceError ? error.code : String(error);
  }
  return undefined;
};

describe('making a source from its description', () => {
  it('makes virtual plates that send what their description says', async () => {
    const description = virtualDescription('Two virtual plates', 'fernwater-three', 7);
    const source = createSource(description, { id: 'rig', clock: stillClock });
    expect(isVirtual(source)).toBe(true);
    const packets: Packet[] = [];
    await source.start((packet) => packets.push(packet));
    expect(packets).toMatchObject([{ kind: 'header', promisedRate: description.rate, channels: description.channels }]);
  });

  it('says in a code what it cannot make', () => {
    const ports: CreateSourcePorts = { id: 'rig', clock: stillClock };
    const description = virtualDescription('Two virtual plates', 'fernwater-three', 7);
    const bytes: Transport[] = [
      { kind: 'serial', path: '/dev/ttyUSB0', baudRate: 115_200 },
      { kind: 'tcp', mode: 'connect', host: '127.0.0.1', port: 4000 },
      { kind: 'udp', host: '127.0.0.1', port: 4000 },
    ];
    for (const transport of bytes) {
      expect(codeOf(() => createSource({ ...description, transport }, ports))).toBe('layout-missing');
    }
    const named = (script: string): SourceDescription => virtualDescription('Two', script, 1);
    expect(codeOf(() => createSource(named('toString'), ports))).toBe('unknown-script');
    expect(codeOf(() => createSource({ ...description, rate: 500 }, ports))).toBe('rate-not-offered');
    const scripts = { mine: { people: [] } };
    expect(codeOf(() => createSource(named('mine'), { ...ports, scripts }))).toBeUndefined();
  });
});

describe('virtual plates paced by a schedule', () => {
  const started = async (speed: number) => {
    const { ports, pass, ticks } = handMoved();
    const source = createSource(virtualDescription('Two', 'fernwater-three', 7, speed), ports);
    const packets: Packet[] = [];
    await source.start((packet) => packets.push(packet));
    const sent = (): number => packets.reduce((sum, p) => sum + (p.kind === 'samples' ? p.count : 0), 0);
    return { source, pass, ticks, packets, sent };
  };

  it('follows the monotonic clock and catches up after a late tick', async () => {
    const { pass, sent, packets } = await started(1);
    pass(19);
    expect(sent()).toBe(0);
    pass(1);
    expect(sent()).toBe(20);
    pass(130);
    expect(sent()).toBe(140);
    pass(10);
    expect(sent()).toBe(160);
    expect(packets.at(-1)).toMatchObject({ at: 1_160_000_000n });
  });

  it('runs faster when asked, and takes a long sleep in bites of 5 s', async () => {
    const fast = await started(20);
    fast.pass(20);
    expect(fast.sent()).toBe(400);
    const slept = await started(1);
    slept.pass(12_000);
    expect(slept.sent()).toBe(5000);
    slept.pass(20);
    slept.pass(20);
    expect(slept.sent()).toBe(12_040);
  });

  it('is silent once stopped', async () => {
    const { source, pass, ticks, sent, packets } = await started(1);
    pass(100);
    await source.stop();
    await source.stop();
    expect(ticks.size).toBe(0);
    pass(100);
    expect(sent()).toBe(100);
    expect(packets.at(-1)).toMatchObject({ kind: 'end', samples: 100, gaps: 0, missing: 0 });
  });
});
