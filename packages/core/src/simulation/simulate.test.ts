import { describe, expect, it } from 'vitest';
import { goodPull } from './parameters.ts';
import { recordingOf } from './recording-of.ts';
import { type RiseForm, riseShare, timeOfShare } from './rise.ts';
import { type SimulatedPull, simulatePull } from './simulate.ts';

const sumOf = (pull: SimulatedPull): Float64Array => pull.left.map((value, n) => value + pull.right[n]!);
const mean = (x: Float64Array, start: number, end: number): number =>
  x.subarray(start, end).reduce((a, b) => a + b, 0) / (end - start);

/** FNV-1a over the bytes: a fingerprint that any machine must reproduce. */
function fingerprint(x: Float64Array): string {
  let hash = 0x811c9dc5;
  for (const byte of new Uint8Array(x.buffer)) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
  return hash.toString(16);
}

describe('rise', () => {
  it('meets the published test curve 2000 (1 - exp(-(t/0.15)^2))', () => {
    // Methods reference, 2.4, first row: net force at 50, 100, 150, 200, 250 ms.
    const shape = {
      form: 'power-exponential' as const,
      bend: 2,
      halfTime: 0.15 * Math.sqrt(Math.LN2),
      slowShare: 0,
      slowTime: 1,
    };
    [0.05, 0.1, 0.15, 0.2, 0.25].forEach((t, i) => {
      const published = [210.3, 717.6, 1264.2, 1662.0, 1875.7][i]!;
      expect(Math.abs(2000 * riseShare(t, shape) - published)).toBeLessThan(0.06); // the last one is 1875.65 unrounded
    });
  });

  it.each(goodPull.forms)('%s starts at nought, never falls and tends to one', (form: RiseForm) => {
    const shape = { form, bend: form === 'sigmoid' ? 4.5 : 1.6, halfTime: 0.14, slowShare: 0.2, slowTime: 0.6 };
    expect(riseShare(0, shape)).toBe(0);
    expect(riseShare(-1, shape)).toBe(0);
    let before = 0;
    for (let t = 0.001; t < 8; t += 0.001) {
      const now = riseShare(t, shape);
      expect(now).toBeGreaterThanOrEqual(before);
      before = now;
    }
    expect(before).toBeGreaterThan(0.9999);
    expect(before).toBeLessThanOrEqual(1);
    expect(riseShare(timeOfShare(0.3, shape), shape)).toBeCloseTo(0.3, 12);
  });
});

describe('simulated pull', () => {
  it('is the same for the same seed, to the bit and to the recorded fingerprint', () => {
    const a = simulatePull({}, 42);
    const b = simulatePull({}, 42);
    expect(a.left).toEqual(b.left);
    expect(a.right).toEqual(b.right);
    // Recorded with Node 20.20.2 on x86-64 Linux; built on IEEE 754 operations alone, so it must hold on any machine.
    expect([fingerprint(a.left), fingerprint(a.right)]).toEqual(['acdab4d6', 'f09eda2']);
    expect(simulatePull({}, 43).left).not.toEqual(a.left);
  });

  it('leaves everything else alone when one value is pinned', () => {
    const free = simulatePull({}, 9).truth.parameters;
    const pinned = simulatePull({ bodyMass: 70, plateNoise: 1, drift: free.drift }, 9).truth.parameters;
    expect(pinned.bodyWeight).toBeCloseTo(70 * 9.80665, 10);
    expect({ ...pinned, bodyWeight: 0, netForce: 0, plateNoise: 0 }).toEqual({
      ...free,
      bodyWeight: 0,
      netForce: 0,
      plateNoise: 0,
    });
  });

  it('changes nothing but the noise when the noise changes', () => {
    const quiet = simulatePull({ plateNoise: 0 }, 3);
    const loud = simulatePull({ plateNoise: 2 }, 3);
    const difference = loud.left.map((value, n) => (value - quiet.left[n]!) / 2);
    const sd = Math.sqrt(mean(difference.map((x) => x * x) as Float64Array, 0, difference.length));
    expect(sd).toBeGreaterThan(0.97);
    expect(sd).toBeLessThan(1.03);
    expect(loud.truth.peak).toEqual(quiet.truth.peak);
  });

  it('keeps what it says of a good pull, for 150 seeds', () => {
    for (let seed = 0; seed < 150; seed++) {
      const pull = simulatePull({ plateNoise: 0 }, seed);
      const { truth } = pull;
      const p = truth.parameters;
      const sum = sumOf(pull);
      const onset = Math.floor(truth.onset.sample);
      // Quiet second: within 25 N of body weight, and no rise before the onset.
      for (let n = onset - 1000; n <= onset; n++) expect(Math.abs(sum[n]! - truth.bodyWeight)).toBeLessThanOrEqual(25);
      const standing = p.bodyWeight + p.tension + p.breathing.amplitude;
      expect(sum[onset]!).toBeLessThanOrEqual(standing + 1e-9);
      expect(sum[onset + 60]!).toBeGreaterThan(sum[onset]!);
      // Steady rise: never falls more than sway can explain until 70 % of the plateau.
      let highest = 0;
      for (let n = onset; sum[n]! < p.bodyWeight + 0.7 * p.netForce; n++) {
        expect(sum[n]!).toBeGreaterThan(highest - 1);
        highest = Math.max(highest, sum[n]!);
      }
      // The stated peak is the largest sum of the noise-free samples and lies before the last half second.
      const largest = sum.reduce((best, value, n) => (value > sum[best]! ? n : best), 0);
      expect(truth.peak.sample).toBe(largest);
      expect(truth.peak.force).toBe(sum[largest]);
      expect(truth.end.seconds - truth.peak.seconds).toBeGreaterThan(0.5);
      // Held 3 s or more.
      expect(truth.end.seconds - truth.onset.seconds).toBeGreaterThan(3);
      // Gross force per kg in a plausible band (methods reference, 3.4: 25 to 45 N/kg are trained; alert beyond 70).
      const perKg = truth.peak.force / (p.bodyWeight / 9.80665);
      expect(perKg).toBeGreaterThan(20);
      expect(perKg).toBeLessThan(45);
      expect(Math.abs(truth.weighed - truth.bodyWeight)).toBeLessThan(15);
    }
  });

  it('stands at body weight, tension and sway before the onset', () => {
    const still = simulatePull({ plateNoise: 0.5, breathing: 0, drift: 0, tension: 12, bodyMass: 80 }, 5);
    const onset = Math.floor(still.truth.onset.sample);
    expect(mean(sumOf(still), onset - 1000, onset)).toBeCloseTo(80 * 9.80665 + 12, 0);
  });

  it('covers all paces and forms, and slow pulls rise more slowly', () => {
    const seen = new Set<string>();
    for (let seed = 0; seed < 60; seed++) {
      const { pace, rise } = simulatePull({ sampleRate: 100 }, seed).truth.parameters;
      seen.add(`${pace} ${rise.form}`);
    }
    expect(seen.size).toBe(9);
    const half = (pace: 'slow' | 'fast') => simulatePull({ pace, sampleRate: 100 }, 1).truth.parameters.rise.halfTime;
    expect(half('slow')).toBeGreaterThan(half('fast'));
  });

  it('puts everything on one plate in a single-leg pull', () => {
    const pull = simulatePull({ limbs: 'right', plateNoise: 0.2 }, 4);
    expect(Math.max(...pull.left.map(Math.abs))).toBeLessThan(2);
    expect(mean(pull.right, 0, 1000)).toBeGreaterThan(0.9 * pull.truth.bodyWeight);
  });

  it('begins on empty plates and ends on them when asked', () => {
    const pull = simulatePull({ stepOn: true, stepOff: true, plateNoise: 0 }, 11);
    const sum = sumOf(pull);
    expect(mean(sum, 0, 400)).toBe(0);
    expect(sum[sum.length - 1]).toBe(0);
    expect(pull.right[900]).toBe(0);
    expect(pull.left[900]!).toBeGreaterThan(0.5 * pull.truth.bodyWeight);
    const onset = Math.floor(pull.truth.onset.sample);
    for (let n = onset - 1000; n <= onset; n++) {
      expect(Math.abs(sum[n]! - pull.truth.bodyWeight)).toBeLessThanOrEqual(26);
    }
  });

  it('rounds to the converter step when asked', () => {
    const { left } = simulatePull({ quantum: 0.25 }, 2);
    expect(left.every((value) => Number.isInteger(value * 4))).toBe(true);
  });

  it('becomes a recording that says nothing of the truth', () => {
    const pull = simulatePull({ fault: 'gap' }, 2);
    const recording = recordingOf(pull);
    expect(recording.channels.map((c) => [c.name, c.unit, c.rawRange?.[1]])).toEqual([
      ['left', 'N', 10_000],
      ['right', 'N', 10_000],
    ]);
    expect(recording.sampleCount).toBe(pull.left.length);
    expect(recording.gaps).toEqual(pull.gaps);
    expect(JSON.stringify(recording.facts)).not.toContain('gap');
  });
});
