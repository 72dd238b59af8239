import { seededRandom } from '@sthene/core';
import { describe, expect, it } from 'vitest';
import { GridAligner } from './align.ts';

interface Plate {
  readonly promised: number;
  readonly rate: number;
  /** When its first sample is taken, s. */
  readonly begins: number;
  readonly packet: number;
  /** Receive delay, s: evenly between 0 and this. */
  readonly delay: number;
}

/** Each plate measures the time itself, in ms: whatever a row's values differ by is how badly it is aligned. */
function run(
  plates: readonly Plate[],
  seconds: number,
  silent?: { plate: number; from: number; to: number; gap: boolean },
) {
  const rows: number[][] = [];
  const gaps: [number, number][] = [];
  let next = 0;
  const aligner = new GridAligner(
    plates.map(({ promised }) => ({ channels: 1, promisedRate: promised })),
    {
      samples(first, count, values) {
        expect(first).toBe(next);
        for (let i = 0; i < count; i++) rows[first + i] = plates.map((_, c) => values[c * count + i]!);
        next = first + count;
      },
      gap(first, count) {
        expect(first).toBe(next);
        gaps.push([first, count]);
        next = first + count;
      },
    },
  );
  const arrivals = plates.flatMap((plate, p) => {
    const random = seededRandom(5, p);
    const all: { p: number; first: number; at: number; lost: boolean }[] = [];
    let at = 0;
    for (let first = 0; ; first += plate.packet) {
      const complete = plate.begins + (first + plate.packet) / plate.rate;
      if (complete > seconds) return all;
      at = Math.max(at, complete + plate.delay * random.uniform());
      const lost = silent !== undefined && silent.plate === p && complete > silent.from && complete < silent.to;
      all.push({ p, first, at, lost });
    }
  });
  arrivals.sort((a, b) => a.at - b.at);
  for (const { p, first, at, lost } of arrivals) {
    const { packet, begins, rate } = plates[p]!;
    if (lost && !silent!.gap) continue;
    const values = lost
      ? undefined
      : Float64Array.from({ length: packet }, (_, i) => 1000 * (begins + (first + i + 1) / rate));
    aligner.append(p, first, packet, values, at);
  }
  aligner.end();
  return { rows, gaps, aligner, next };
}

const two: readonly Plate[] = [
  { promised: 1000, rate: 1000.3, begins: 0.1, packet: 10, delay: 0.004 },
  { promised: 1000, rate: 999.6, begins: 0.45, packet: 10, delay: 0.004 },
];

describe('streams on one grid', () => {
  it('are aligned to a fraction of a sample, also at other rates, and never jump', () => {
    for (const plates of [two, [two[0]!, { ...two[1]!, promised: 500, rate: 500.2, packet: 8 }]]) {
      const { rows, gaps, aligner } = run(plates, 60);
      expect(gaps).toEqual([]);
      expect(rows.length).toBeGreaterThan(59_000);
      const off = rows.map(([a, b]) => Math.abs(a! - b!));
      expect(Math.max(...off)).toBeLessThan(1.5);
      expect(Math.max(...off.slice(10_000))).toBeLessThan(0.5);
      // Neighbouring rows lie 1 ms apart on every channel.
      let jump = 0;
      for (const c of [0, 1]) {
        for (let n = 1; n < rows.length; n++) jump = Math.max(jump, Math.abs(rows[n]![c]! - rows[n - 1]![c]! - 1));
      }
      expect(jump).toBeLessThan(0.01);
      // The scatter of the fastest of about ten packets with delays of 0 to 4 ms is below half a millisecond.
      for (const { line } of aligner.alignments()) {
        expect(line!.residual).toBeGreaterThan(0.00005);
        expect(line!.residual).toBeLessThan(0.0008);
      }
      expect(aligner.fastest).toBe(0);
    }
  });

  it('begin at the first sample that all have', () => {
    const { rows } = run(two, 10);
    // The second plate's first sample is complete at 451 ms.
    expect(rows[0]![0]).toBeGreaterThan(449.5);
    expect(rows[0]![0]).toBeLessThan(453);
  });

  it('miss a row where any of them misses a sample', () => {
    const { rows, gaps, next } = run(two, 20, { plate: 1, from: 8, to: 8.3, gap: true });
    const missing = gaps.reduce((sum, [, count]) => sum + count, 0);
    expect(missing).toBeGreaterThan(280);
    expect(missing).toBeLessThan(312);
    const known = rows.filter((row) => row !== undefined);
    expect(known.length + missing).toBe(next);
    expect(Math.max(...known.map(([a, b]) => Math.abs(a! - b!)))).toBeLessThan(1.5);
  });

  it('do not wait for ever for one that fell silent', () => {
    const { gaps, next } = run(two, 20, { plate: 1, from: 8, to: 21, gap: false });
    expect(next).toBeGreaterThan(18_000);
    expect(gaps.at(-1)![0]).toBe(next - 1);
  });

  it('begin only when every clock is known', () => {
    expect(run(two, 1).next).toBe(0);
  });
});
