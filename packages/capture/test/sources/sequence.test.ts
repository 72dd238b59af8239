import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Packet } from '../../src/packets/packet.ts';
import { countsOf, type PacketFault, type TwinDevice } from '../../src/sources/twin/index.ts';
import { bench, of, provenGrid } from './twin-bench.ts';

const device = (faults: readonly PacketFault[], more: Partial<TwinDevice> = {}): TwinDevice => ({
  line: { rate: 1000, packet: 10, faults },
  channels: 3,
  samples: 10_000,
  wrapsAt: 65535,
  ...more,
});
const faults = (packets: readonly Packet[], fault: string) =>
  of(packets, 'fault')
    .filter((one) => one.fault === fault)
    .reduce((sum, { count }) => sum + count, 0);
const gaps = (packets: readonly Packet[]) => of(packets, 'gap').map(({ first, count, cause }) => [first, count, cause]);
const states = (packets: readonly Packet[]) => of(packets, 'status').map(({ state }) => state);
const seconds = (packet: Packet) => Number(packet.at) / 1e9 - 100;

describe('sequencing', () => {
  it('hands on a clean stream whole, header first, end last', () => {
    const packets = bench(device([]));
    expect(packets[0]).toMatchObject({ kind: 'header', source: 'twin', device: 'FW-0007', promisedRate: 1000 });
    expect(packets.at(-1)).toMatchObject({ kind: 'end', samples: 10_000, gaps: 0, missing: 0 });
    expect(provenGrid(packets)).toBe(10_000);
    expect(of(packets, 'fault')).toEqual([]);
    expect(states(packets)).toEqual(['connected', 'quiet', 'ended']);
    // Clock evidence at the beginning and every five seconds.
    expect(of(packets, 'clock').map(({ sample }) => sample)).toEqual([10, 5010, 10_000]);
  });

  it('records exactly what the script of faults says', () => {
    const script: PacketFault[] = [
      { kind: 'lost', at: 50 },
      { kind: 'lost', at: 80, packets: 3 },
      { kind: 'doubled', at: 120 },
      { kind: 'swapped', at: 160 },
      { kind: 'late', at: 200, seconds: 0.1 },
      { kind: 'late', at: 300, seconds: 0.5 },
      { kind: 'stall', at: 400, packets: 70 },
      { kind: 'stall', at: 500, packets: 60, kept: true },
      { kind: 'unplug', at: 700, packets: 120 },
      { kind: 'doubled', at: 900 },
    ];
    const one = device(script);
    const packets = bench(one);
    const counts = countsOf(one.line, 0.2);
    // By hand from the script.
    expect(counts).toEqual({ missing: 10 + 30 + 10 + 700 + 1200, gaps: 5, doubled: 2, late: 1, swapped: 2 });
    expect(gaps(packets)).toEqual([
      [500, 10, 'lost'],
      [800, 30, 'lost'],
      [3000, 10, 'lost'],
      [4000, 700, 'stall'],
      [7000, 1200, 'disconnected'],
    ]);
    expect(packets.at(-1)).toMatchObject({
      samples: 10_000 - counts.missing,
      gaps: counts.gaps,
      missing: counts.missing,
    });
    expect(faults(packets, 'doubled')).toBe(counts.doubled);
    expect(faults(packets, 'late')).toBe(counts.late);
    expect(faults(packets, 'swapped')).toBe(counts.swapped);
    expect(provenGrid(packets)).toBe(10_000);
  });

  it.each([99, 255, 1023, 65535])('counts alike across the wrap of a counter at %d', (wrapsAt) => {
    const script: PacketFault[] = [
      { kind: 'lost', at: 6, packets: 2 },
      { kind: 'lost', at: 103, packets: 4 },
      { kind: 'doubled', at: 204 },
      { kind: 'doubled', at: 409 },
    ];
    const one = device(script, { wrapsAt, counterStart: 65535 - 1000 });
    const packets = bench(one, { window: 0 });
    expect(gaps(packets)).toEqual([
      [60, 20, 'lost'],
      [1030, 40, 'lost'],
    ]);
    expect(faults(packets, 'doubled')).toBe(2);
    expect(provenGrid(packets)).toBe(10_000);
  });

  it('puts nothing in order where a link keeps the order, and gives up at once', () => {
    const packets = bench(device([{ kind: 'swapped', at: 100 }]), { window: 0 });
    expect(gaps(packets)).toEqual([[1000, 10, 'lost']]);
    expect(faults(packets, 'late')).toBe(1);
    expect(provenGrid(packets)).toBe(10_000);
  });

  it('agrees with any script of faults', () => {
    // Faults 60 packets apart do not touch each other.
    const fault = fc.oneof(
      fc.record({ kind: fc.constant('lost' as const), packets: fc.integer({ min: 1, max: 25 }) }),
      fc.record({ kind: fc.constantFrom('doubled' as const, 'swapped' as const) }),
      fc.record({ kind: fc.constant('late' as const), seconds: fc.constantFrom(0.05, 0.105, 0.305, 0.455) }),
      fc.record({ kind: fc.constant('stall' as const), packets: fc.constantFrom(5, 20, 55), kept: fc.boolean() }),
      fc.record({ kind: fc.constant('unplug' as const), packets: fc.integer({ min: 5, max: 55 }) }),
    );
    fc.assert(
      fc.property(
        fc.array(fault, { minLength: 1, maxLength: 10 }),
        fc.constantFrom(1023, 65535, undefined),
        fc.nat(60_000),
        (list, wrapsAt, counterStart) => {
          const script = list.map((one, i) => ({ ...one, at: 10 + 110 * i })) as PacketFault[];
          const { wrapsAt: _, ...rest } = device(script, { samples: 12_000, counterStart });
          const one: TwinDevice = wrapsAt === undefined ? rest : { ...rest, wrapsAt };
          const packets = bench(one);
          const counts = countsOf(one.line, 0.2);
          expect(provenGrid(packets)).toBe(12_000);
          expect(packets.at(-1)).toMatchObject({
            samples: 12_000 - counts.missing,
            gaps: counts.gaps,
            missing: counts.missing,
          });
          expect((['doubled', 'late', 'swapped'] as const).map((one) => faults(packets, one))).toEqual([
            counts.doubled,
            counts.late,
            counts.swapped,
          ]);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('notices silence within half a second and says when it ends', () => {
    const packets = bench(device([{ kind: 'stall', at: 300, packets: 200 }]));
    const quiet = of(packets, 'status').find(({ state }) => state === 'quiet')!;
    expect(seconds(quiet)).toBeGreaterThan(3.3);
    expect(seconds(quiet)).toBeLessThanOrEqual(3.5);
    expect(states(packets).slice(0, 3)).toEqual(['connected', 'quiet', 'returned']);
  });

  it('keeps identity and grid over a cable pulled for longer than the counter lasts', () => {
    const packets = bench(device([{ kind: 'unplug', at: 100, packets: 7000 }], { samples: 80_000 }));
    expect(of(packets, 'header')).toHaveLength(1);
    expect(gaps(packets)).toEqual([[1000, 70_000, 'disconnected']]);
    expect(provenGrid(packets)).toBe(80_000);
  });

  it('measures the gap by time when the device counts anew', () => {
    const packets = bench(device([{ kind: 'unplug', at: 200, packets: 300, countsAnew: true }]));
    const [gap] = of(packets, 'gap');
    expect(gap).toMatchObject({ first: 2000, cause: 'disconnected' });
    expect(Math.abs(gap!.count - 3000)).toBeLessThanOrEqual(20);
    expect(packets.at(-1)).toMatchObject({ samples: 7000, gaps: 1 });
  });

  it('tells suspension from silence', () => {
    const packets = bench(device([{ kind: 'stall', at: 300, packets: 150 }]), { frozen: [2.95, 4.45] });
    expect(gaps(packets)).toEqual([[3000, 1500, 'suspended']]);
  });

  it('measures gaps by time where nothing counts', () => {
    const packets = bench(
      device(
        [
          { kind: 'stall', at: 300, packets: 150 },
          { kind: 'unplug', at: 600, packets: 100 },
        ],
        { wrapsAt: 'none' },
      ),
    );
    const [stall, unplug] = of(packets, 'gap');
    expect([stall!.cause, unplug!.cause]).toEqual(['stall', 'disconnected']);
    expect(Math.abs(stall!.count - 1500)).toBeLessThanOrEqual(10);
    expect(Math.abs(unplug!.count - 1000)).toBeLessThanOrEqual(10);
  });

  it('does not believe a counter that lies once', () => {
    const packets = bench(device([{ kind: 'lie', at: 299, counter: 28_000 }]), { window: 0 });
    expect(faults(packets, 'unreadable')).toBe(1);
    expect(gaps(packets)).toEqual([[2990, 10, 'lost']]);
    expect(provenGrid(packets)).toBe(10_000);
  });
});

describe('the rate of a stream', () => {
  it.each([995, 1000, 1005])('of %d Hz is reported within 0.05 percent', (rate) => {
    const packets = bench(
      device([{ kind: 'lost', at: 100, packets: 5 }], {
        line: { rate, packet: 10, faults: [{ kind: 'lost', at: 100 }] },
        samples: 30_000,
      }),
      { promisedRate: 1000 },
    );
    const last = of(packets, 'clock').at(-1)!;
    expect(Math.abs(last.measuredRate! / rate - 1)).toBeLessThan(0.0005);
    expect(states(packets)).not.toContain('wrong-rate');
  });

  it('is a warning beyond half a percent, within 5 s', () => {
    const packets = bench(device([], { line: { rate: 993, packet: 10 }, samples: 20_000 }), { promisedRate: 1000 });
    const warning = of(packets, 'status').filter(({ state }) => state === 'wrong-rate');
    expect(warning).toHaveLength(1);
    expect(seconds(warning[0]!)).toBeLessThan(5);
    expect(warning[0]!.words).toMatch(/^99[0-9.]+ samples a second come, 1000 were promised\.$/u);
  });

  it('drifting is followed within 0.05 %', () => {
    const packets = bench(device([], { line: { rate: 1000, rateDrift: 1.5, packet: 10 }, samples: 120_000 }), {
      promisedRate: 1000,
    });
    const last = of(packets, 'clock').at(-1)!;
    const truth = 1000 + (1.5 * seconds(last)) / 60;
    expect(Math.abs(last.measuredRate! / truth - 1)).toBeLessThan(0.0005);
  });

  it('and every sample are the same whatever the wall clock does', () => {
    const one = device([{ kind: 'lost', at: 100 }], { samples: 20_000 });
    const plain = bench(one);
    const jumps: readonly ((s: number) => number)[] = [
      (s) => s + (s > 7 ? 3600 : 0),
      (s) => s - (s > 7 ? 3600 : 0),
      (s) => s + (s > 7 ? 86_400 : 0),
      (s) => s - (s > 7 ? 86_400 : 0),
      (s) => s - (s > 7 ? 1.5 : 0),
      (s) => s * 1.0005,
    ];
    const withoutWall = (packets: readonly Packet[]) =>
      packets.filter(({ kind }) => kind !== 'clock' && kind !== 'header').map((packet) => ({ ...packet }));
    for (const [i, wall] of jumps.entries()) {
      const packets = bench(one, { wall });
      expect(withoutWall(packets)).toEqual(withoutWall(plain));
      // A step is told by a clock packet of its own; a slew is not.
      const told = of(packets, 'clock').some((packet) => seconds(packet) > 7 && seconds(packet) <= 7.2);
      expect(told).toBe(i < 5);
      expect(of(packets, 'clock').at(-1)!.measuredRate).toBeCloseTo(of(plain, 'clock').at(-1)!.measuredRate!, 9);
    }
  });
});
