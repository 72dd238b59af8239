import { describe, expect, it } from 'vitest';
import type { Packet } from '../../src/packets/packet.ts';
import type { LineFault, VirtualScript } from '../../src/sources/virtual/script.ts';
import { virtualPlates } from '../../src/sources/virtual/virtual-plates.ts';
import { stillClock, VirtualRig } from './rig.ts';

const one = { people: [{ weight: 700, strength: 1300 }], byHand: true } satisfies VirtualScript;

/** Plays ten seconds (or more) with faults of the line; everybody does what `act` says. */
async function play(line: readonly LineFault[], seconds = 10, act = () => {}, script: VirtualScript = one) {
  const packets: Packet[] = [];
  const plates = virtualPlates({ id: 'rig', script: { ...script, line }, seed: 3, clock: stillClock });
  await plates.start((packet) => packets.push(packet));
  act();
  plates.run(seconds * 1000);
  await plates.stop();
  return packets;
}

const of = <K extends Packet['kind']>(packets: readonly Packet[], kind: K) =>
  packets.filter((packet) => packet.kind === kind) as Extract<Packet, { kind: K }>[];

/** Every index of the grid once: in samples or in a gap, in order. */
function covered(packets: readonly Packet[]): number {
  let next = 0;
  for (const packet of packets) {
    if (packet.kind !== 'samples' && packet.kind !== 'gap') continue;
    expect(packet.first).toBe(next);
    next += packet.count;
  }
  return next;
}

/** Raw values of a plate by index; missing ones are NaN. */
function plate(packets: readonly Packet[], channel: 0 | 1): number[] {
  const values: number[] = [];
  for (const { first, count, values: v } of of(packets, 'samples')) {
    for (let i = 0; i < count; i++) values[first + i] = v[channel * count + i]!;
  }
  return Array.from(values, (value) => value ?? Number.NaN);
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

describe('the line of virtual plates', () => {
  it('sends a header, packets of 20 ms in steps of 0.1 N, a clock packet each 5 s, and an end', async () => {
    const packets = await play([]);
    expect(packets[0]).toMatchObject({ kind: 'header', source: 'rig', promisedRate: 1000 });
    expect(
      of(packets, 'header')[0]!.channels.map(({ name, side, axis, unit, scale, rawRange }) => [
        name,
        side,
        axis,
        unit,
        scale,
        rawRange,
      ]),
    ).toEqual([
      ['left', 'left', 'z', 'N', 1, [-10_000, 10_000]],
      ['right', 'right', 'z', 'N', 1, [-10_000, 10_000]],
    ]);
    expect(of(packets, 'samples').every(({ count, values }) => count === 20 && values.length === 40)).toBe(true);
    expect(
      of(packets, 'samples').every(({ values }) => values.every((v) => Math.abs(v * 10 - Math.round(v * 10)) < 1e-9)),
    ).toBe(true);
    expect(of(packets, 'clock').map(({ sample, at, wallClock }) => [sample, at, wallClock])).toEqual([
      [5000, 5_000_000_000n, '2026-03-28T09:00:05.000Z'],
      [10_000, 10_000_000_000n, '2026-03-28T09:00:10.000Z'],
    ]);
    expect(packets.at(-1)).toEqual({ kind: 'end', samples: 10_000, gaps: 0, missing: 0, at: 10_000_000_000n });
    expect(covered(packets)).toBe(10_000);
  });

  it('loses samples, and nothing else changes', async () => {
    const whole = plate(await play([]), 0);
    const packets = await play([
      { kind: 'lost', from: 1003, count: 4 },
      { kind: 'lost', from: 2000, count: 45 },
    ]);
    expect(of(packets, 'gap').map(({ first, count, cause }) => [first, count, cause])).toEqual([
      [1003, 4, 'lost'],
      [2000, 45, 'lost'],
    ]);
    expect(covered(packets)).toBe(10_000);
    const left = plate(packets, 0);
    for (const n of [1002, 1007, 1999, 2045, 9999]) expect(left[n]).toBe(whole[n]);
    expect(packets.at(-1)).toMatchObject({ samples: 9951, gaps: 2, missing: 49 });
  });

  it('counts doubled and late packets', async () => {
    const packets = await play([
      { kind: 'doubled', from: 1010, packets: 3 },
      { kind: 'late', from: 3000, count: 40, by: 100 },
    ]);
    expect(of(packets, 'fault').map(({ fault, count, near }) => [fault, count, near])).toEqual([
      ['doubled', 1, 1000],
      ['doubled', 1, 1020],
      ['doubled', 1, 1040],
      ['late', 2, 3000],
    ]);
    expect(of(packets, 'gap').map(({ first, count, cause }) => [first, count, cause])).toEqual([[3000, 40, 'lost']]);
    expect(covered(packets)).toBe(10_000);
  });

  it('counts a packet that came out of order, and reads a counter across its end', async () => {
    const whole = plate(await play([]), 0);
    const packets = await play([
      { kind: 'swapped', from: 1010 },
      { kind: 'wrap', from: 2000 },
      { kind: 'lost', from: 2100, count: 40 },
    ]);
    expect(of(packets, 'fault').map(({ fault, count, near }) => [fault, count, near])).toEqual([['swapped', 1, 1010]]);
    expect(of(packets, 'gap').map(({ first, count, cause }) => [first, count, cause])).toEqual([[2100, 40, 'lost']]);
    const left = plate(packets, 0);
    for (const n of [999, 1000, 1019, 1020, 1999, 2000, 2001, 2140, 9999]) expect(left[n]).toBe(whole[n]);
    expect(covered(packets)).toBe(10_000);
  });

  it('stalls and is unplugged, says so, and goes on in the same grid', async () => {
    const packets = await play([
      { kind: 'stall', from: 1000, count: 300 },
      { kind: 'stall', from: 2000, count: 800 },
      { kind: 'unplug', from: 4005, count: 3000 },
    ]);
    expect(of(packets, 'gap').map(({ first, count, cause }) => [first, count, cause])).toEqual([
      [1000, 300, 'stall'],
      [2000, 800, 'stall'],
      [4005, 3000, 'disconnected'],
    ]);
    expect(of(packets, 'status').map(({ state }) => state)).toEqual(['quiet', 'returned', 'lost', 'returned']);
    expect(of(packets, 'clock').map(({ sample }) => sample)).toEqual([10_000]);
    expect(covered(packets)).toBe(10_000);
  });

  it('tells a gap that is still open before its end', async () => {
    const packets = await play([{ kind: 'unplug', from: 9000, count: 5000 }]);
    expect(packets.slice(-2)).toMatchObject([
      { kind: 'gap', first: 9000, count: 1000 },
      { kind: 'end', samples: 9000, gaps: 1, missing: 1000 },
    ]);
  });

  it('saturates and drifts one plate', async () => {
    const packets = await play([
      { kind: 'saturation', side: 'right', from: 2000, count: 100 },
      { kind: 'drift', side: 'left', from: 4000, count: 2000, newtons: 12 },
    ]);
    const [left, right] = [plate(packets, 0), plate(packets, 1)];
    expect(right.slice(2000, 2100).every((v) => v === 10_000)).toBe(true);
    expect(Math.max(...right.slice(0, 2000), ...right.slice(2100))).toBeLessThan(5);
    expect(mean(left.slice(0, 4000))).toBeCloseTo(0, 1);
    expect(mean(left.slice(4900, 5100))).toBeCloseTo(6, 0);
    expect(mean(left.slice(6000))).toBeCloseTo(12, 1);
  });

  it.each([995, 1000, 1005])('runs at %i samples a second, and measures it within 0.05 %%', async (hertz) => {
    const packets = await play(hertz === 1000 ? [] : [{ kind: 'rate', from: 0, hertz }], 20);
    const { measuredRate } = of(packets, 'clock').at(-1)!;
    expect(Math.abs(measuredRate! - hertz)).toBeLessThan(0.0005 * hertz);
    expect(covered(packets)).toBe(20_000);
    // Half a percent is no more than half a percent: exactly at the limit nothing is said.
    expect(of(packets, 'status')).toEqual([]);
  });

  it('warns of a rate that becomes wrong, and takes it back', async () => {
    const packets = await play(
      [
        { kind: 'rate', from: 5000, hertz: 980 },
        { kind: 'rate', from: 40_000, hertz: 1000 },
      ],
      100,
    );
    expect(of(packets, 'status').map(({ state }) => state)).toEqual(['wrong-rate', 'connected']);
    expect(of(packets, 'clock').every(({ sample, at }, i, all) => i === 0 || (at > all[i - 1]!.at && sample > 0))).toBe(
      true,
    );
  });

  it('refuses a fault in the past, and to start twice', async () => {
    const plates = virtualPlates({ id: 'rig', script: one, seed: 3, clock: stillClock });
    expect(() => plates.run(20)).toThrow('after they started');
    await plates.start(() => {});
    plates.run(100);
    expect(() => plates.disturb({ kind: 'lost', from: 99, count: 1 })).toThrow('ahead');
    plates.disturb({ kind: 'lost', from: 100, count: 1 });
    await expect(plates.start(() => {})).rejects.toThrow('once');
  });

  it('sends nothing after its end, even when stopped from within a packet', async () => {
    const packets: Packet[] = [];
    const script = { ...one, line: [{ kind: 'lost', from: 50, count: 2 }] } satisfies VirtualScript;
    const plates = virtualPlates({ id: 'rig', script, seed: 3, clock: stillClock });
    await plates.start((packet) => {
      packets.push(packet);
      if (packet.kind === 'gap') void plates.stop();
    });
    plates.run(1000);
    expect(packets.at(-1)?.kind).toBe('end');
    expect(of(packets, 'end')).toHaveLength(1);
  });
});

describe('people played by hand', () => {
  it('step on, pull after the cue, and step off', async () => {
    const packets: Packet[] = [];
    const plates = virtualPlates({ id: 'rig', script: { ...one, pullSeconds: 3 }, seed: 3, clock: stillClock });
    await plates.start((packet) => packets.push(packet));
    plates.run(1000);
    plates.stepOn(0);
    plates.run(5000);
    plates.cue();
    plates.run(11_000);
    plates.stepOff();
    plates.run(13_000);
    const right = plate(packets, 1);
    const total = plate(packets, 0).map((v, n) => v + right[n]!);
    expect(mean(total.slice(0, 1000))).toBeCloseTo(0, 0);
    expect(Math.abs(mean(total.slice(2500, 5000)) - 700)).toBeLessThan(3);
    // Breathing of 3 N about the weight.
    expect(Math.max(...total.slice(2500, 5000)) - 700).toBeLessThan(3 + 5);
    const rise = total.findIndex((v, n) => n > 5000 && v > 700 + 130);
    expect(rise).toBeGreaterThan(5200);
    expect(rise).toBeLessThan(5550);
    expect(Math.abs(Math.max(...total) - 2000)).toBeLessThan(80);
    expect(mean(total.slice(12_000))).toBeCloseTo(0, 0);
    expect(() => plates.stepOn(1)).toThrow('no person 1');
  });
});

describe('a plate unplugged in mid-pull', () => {
  it('ends the pull by rule, and the day goes on', async () => {
    const { weight, strength } = one.people[0]!;
    const rig = await VirtualRig.open({ people: one.people }, 5, { mode: 'hands-free' });
    rig.call('p-wren', { ownBest: weight + strength, warmUpDone: 2, maximalTrials: 2 });
    rig.order({ order: 'arm' });
    rig.must('a pull', 60, () => rig.phase === 'pull');
    rig.plates.disturb({ kind: 'unplug', from: rig.plates.position + 1500, count: 2000 });
    rig.must('all trials', 200, () => rig.of('turn-ended').length > 0);
    expect(rig.closed.map(({ ended, verdict }) => [ended, verdict])).toEqual([
      ['signal-lost', 'repeat'],
      ['released', 'counts'],
      ['released', 'counts'],
    ]);
  }, 30_000);
});
