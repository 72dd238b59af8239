import { describe, expect, it } from 'vitest';
import type { PullSpec } from '../draw.ts';
import { type SimulatedPull, simulatePull } from '../simulate.ts';
import { faultById, faults } from './index.ts';

const seeds = Array.from({ length: 12 }, (_, seed) => seed);
const sumOf = (pull: SimulatedPull): Float64Array => pull.left.map((value, n) => value + pull.right[n]!);
const quiet: PullSpec = { plateNoise: 0 };

/** A faulty pull and the same pull without its fault; noise-free unless asked otherwise. */
function twins(fault: string, seed: number, spec: PullSpec = quiet) {
  const bad = simulatePull({ ...spec, fault }, seed);
  const good = simulatePull(spec, seed);
  const F = sumOf(bad);
  const G = sumOf(good);
  const difference = F.map((value, n) => value - (G[n] ?? 0));
  const index = (t: number): number => Math.floor(t * bad.sampleRate);
  const between = (x: Float64Array, from: number, to: number) => x.subarray(Math.max(0, index(from)), index(to) + 1);
  return { bad, good, F, G, difference, between, onset: bad.truth.onset.seconds, severity: bad.truth.severity };
}
const max = (x: Float64Array): number => x.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
const min = (x: Float64Array): number => x.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);

/** What is different about each fault, as a statement about the two curves. */
const statements: Record<string, (seed: number) => void> = {
  dip: (seed) => {
    const { difference, between, onset, severity } = twins('dip', seed);
    expect(min(between(difference, onset - 0.5, onset))).toBeCloseTo(-severity.depth_n!, 0);
    expect(max(between(difference, onset + 0.001, onset + 3).map(Math.abs))).toBeLessThan(1e-9);
  },
  'tension-held': (seed) => {
    const { difference, between, onset, severity } = twins('tension-held', seed);
    const before = between(difference, 0, onset);
    expect(min(before)).toBeCloseTo(severity.tension_n!, 6);
    expect(max(before)).toBeCloseTo(severity.tension_n!, 6);
  },
  'tension-taken': (seed) => {
    const { difference, between, onset, severity } = twins('tension-taken', seed);
    const start = onset - severity.before_s!;
    if (start > 0) expect(max(between(difference, 0, start - 0.002))).toBeLessThan(1e-9);
    expect(difference[Math.floor(onset * 1000)]!).toBeCloseTo(severity.tension_n!, 6);
    expect(Math.abs(difference[Math.floor((onset + 3) * 1000)]!)).toBeLessThan(0.05 * severity.tension_n!);
  },
  slack: (seed) => {
    const { difference, between, onset, severity } = twins('slack', seed);
    expect(max(between(difference, onset - 0.3, onset))).toBeCloseTo(severity.height_n!, 0);
    expect(Math.abs(difference[Math.floor(onset * 1000)]!)).toBeLessThan(1);
  },
  'bar-knock': (seed) => {
    const { difference, between, onset, severity } = twins('bar-knock', seed);
    expect(max(between(difference, onset - 0.6, onset))).toBeGreaterThan(0.4 * severity.height_n!);
    expect(min(between(difference, onset - 0.6, onset + 0.1))).toBeLessThan(-0.1 * severity.height_n!);
  },
  'step-on': (seed) => {
    const { F, between, onset, bad, severity } = twins('step-on', seed);
    expect(max(between(F, 0, onset - severity.before_s! - 0.002))).toBe(0);
    expect(max(between(F, onset - 0.1, onset))).toBeGreaterThan(0.8 * bad.truth.bodyWeight);
  },
  'unsteady-stance': (seed) => {
    const { difference, between, onset, severity } = twins('unsteady-stance', seed);
    const last = between(difference, onset - 2, onset);
    expect(max(last) - min(last)).toBeGreaterThan(0.9 * severity.amplitude_n!);
  },
  're-landing': (seed) => {
    const { bad, good, between, onset, severity } = twins('re-landing', seed);
    const side = severity.side! < 0.5 ? 'left' : 'right';
    const before = onset - severity.before_s!;
    expect(min(between(bad[side], before - 0.12, before - 0.02))).toBeLessThan(1e-6);
    expect(min(between(good[side], before - 0.12, before - 0.02))).toBeGreaterThan(100);
  },
  'one-foot-on': (seed) => {
    const { bad, severity } = twins('one-foot-on', seed);
    expect(max(severity.side! < 0.5 ? bad.left : bad.right)).toBe(0);
  },
  'other-foot': (seed) => {
    const spec = { plateNoise: 0, limbs: 'left' } as const;
    const { bad, good, between, onset, severity, difference } = twins('other-foot', seed, spec);
    expect(max(good.right)).toBe(0);
    expect(max(between(bad.right, onset + 2, onset + 3))).toBeCloseTo(severity.force_n!, 6);
    expect(max(difference.map(Math.abs))).toBeLessThan(1e-9);
  },
  'early-end': (seed) => {
    const { bad, good } = twins('early-end', seed);
    expect(bad.truth.end.seconds - bad.truth.onset.seconds).toBeLessThanOrEqual(1.7);
    expect(good.truth.end.seconds - good.truth.onset.seconds).toBeGreaterThan(3);
  },
  'double-pull': (seed) => {
    const { F, between, onset, severity, bad } = twins('double-pull', seed);
    const at = onset + severity.at_s!;
    const first = max(between(F, onset, at));
    const bottom = min(between(F, at, at + severity.duration_s!));
    expect(first - bottom).toBeGreaterThan(0.1 * bad.truth.parameters.netForce);
    expect(max(between(F, at + severity.duration_s!, onset + 3))).toBeGreaterThan(bottom * 1.1);
  },
  'stepped-rise': (seed) => {
    const { F, between, onset, severity, bad } = twins('stepped-rise', seed);
    const { netForce } = bad.truth.parameters;
    // Somewhere in the rise the force gains less than 3 % of the pull over 100 ms.
    const rise = between(F, onset + 0.02, onset + 0.7);
    const reached = rise.findIndex((x) => x > bad.truth.bodyWeight + 0.15 * netForce);
    let smallest = Number.POSITIVE_INFINITY;
    for (let n = reached; n < reached + 400; n++) smallest = Math.min(smallest, rise[n + 100]! - rise[n]!);
    expect(smallest).toBeLessThan(0.03 * netForce);
    expect(severity.pause_s).toBeGreaterThanOrEqual(0.14);
  },
  'peak-at-end': (seed) => {
    const { bad, good } = twins('peak-at-end', seed);
    expect(bad.truth.end.seconds - bad.truth.peak.seconds).toBeLessThan(0.25);
    expect(good.truth.end.seconds - good.truth.peak.seconds).toBeGreaterThan(0.5);
  },
  spike: (seed) => {
    const { difference, bad, severity } = twins('spike', seed);
    const { bodyWeight, netForce } = bad.truth.parameters;
    expect(max(difference)).toBeCloseTo(severity.height! * (bodyWeight + netForce), 6);
    const hit = difference.filter((x) => x > 1).length;
    expect(hit).toBeGreaterThanOrEqual(1);
    expect(hit).toBeLessThanOrEqual(6);
  },
  clipping: (seed) => {
    const { bad } = twins('clipping', seed);
    const limit = bad.truth.parameters.plateRange;
    const equal = Math.max(bad.left.filter((x) => x === limit).length, bad.right.filter((x) => x === limit).length);
    expect(equal).toBeGreaterThanOrEqual(3);
    expect(Math.max(max(bad.left), max(bad.right))).toBe(limit);
  },
  gap: (seed) => {
    const { bad, onset } = twins('gap', seed);
    expect(bad.gaps).toHaveLength(1);
    const { start, end } = bad.gaps[0]!;
    expect(end - start).toBeGreaterThanOrEqual(2);
    expect(bad.left.subarray(start, end).every(Number.isNaN)).toBe(true);
    expect(bad.left.filter(Number.isNaN)).toHaveLength(end - start);
    expect(start / bad.sampleRate).toBeGreaterThan(onset - 0.41);
    expect(end / bad.sampleRate).toBeLessThan(bad.truth.end.seconds);
  },
  'lost-side': (seed) => {
    const { bad, between, onset, severity } = twins('lost-side', seed, { plateNoise: 1 });
    const plate = severity.side! < 0.5 ? bad.left : bad.right;
    expect(between(plate, onset + 1.6, onset + 3).every((x) => x === 0)).toBe(true);
    expect(plate[Math.floor((onset - 0.5) * 1000)]).not.toBe(0);
  },
  'low-rate': (seed) => {
    const { bad, good } = twins('low-rate', seed);
    expect(bad.sampleRate).toBeLessThan(1000);
    expect(bad.sampleRate).toBeGreaterThanOrEqual(100);
    expect(bad.truth.onset.seconds).toBe(good.truth.onset.seconds);
  },
};

describe('faults', () => {
  it('are all described and never expected to count', () => {
    expect(Object.keys(statements).sort()).toEqual(faults.map((fault) => fault.id).sort());
    for (const fault of faults) {
      expect(fault.expected.length).toBeGreaterThan(0);
      expect(fault.what).toMatch(/\.$/);
    }
  });

  it.each(faults.map((fault) => fault.id))('%s differs from its good twin in the stated way', (id) => {
    for (const seed of seeds) statements[id]!(seed);
  });

  it.each(faults.map((fault) => fault.id))('%s draws its numbers from its ranges and repeats for a seed', (id) => {
    for (const seed of seeds.slice(0, 5)) {
      const a = simulatePull({ fault: id }, seed);
      expect(simulatePull({ fault: id }, seed).right).toEqual(a.right);
      for (const [name, [low, high]] of Object.entries(faultById(id).ranges)) {
        expect(a.truth.severity[name]).toBeGreaterThanOrEqual(low);
        expect(a.truth.severity[name]).toBeLessThanOrEqual(high);
      }
    }
  });

  it('take pinned numbers and refuse unknown ones', () => {
    expect(simulatePull({ fault: 'dip', severity: { depth_n: 99 } }, 1).truth.severity.depth_n).toBe(99);
    expect(() => simulatePull({ fault: 'dip', severity: { depth: 99 } }, 1)).toThrow(/no number "depth"/);
    expect(() => simulatePull({ fault: 'nothing-known' }, 1)).toThrow(/unknown fault/);
  });
});
