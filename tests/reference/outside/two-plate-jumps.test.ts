import { describe, expect, it } from 'vitest';
import { analysePlainly, must } from '../plain/analyse.ts';
import { mean, sd } from '../plain/numbers.ts';
import { inputOf } from '../plain-input.ts';
import { columns, present } from './files.ts';

// SOURCE.md: quiet stance in the first 0.5 s, and where and how long the sum of the plates is below 20 N.
const files = [
  {
    name: 'two-plate-jumps/BFR003_squat_jump.csv',
    stance: 784.6,
    spread: 2.0,
    starts: [2.4, 5.92, 9.68],
    lasts: [0.29, 0.309, 0.304],
  },
  {
    name: 'two-plate-jumps/BFR010_squat_jump.csv',
    stance: 580.1,
    spread: 1.9,
    starts: [1.93, 4.12, 6.23],
    lasts: [0.311, 0.317, 0.327],
  },
  {
    name: 'two-plate-jumps/BFR011_squat_jump.csv',
    stance: 757.8,
    spread: 2.8,
    starts: [3.56, 7.36, 11.14],
    lasts: [0.246, 0.382, 0.381],
  },
];

describe.each(files)('$name', ({ name, stance, spread, starts, lasts }) => {
  const there = present(name);
  const file = there ? columns(name, 'time') : {};
  const right = file.ground_force1_vy ?? new Float64Array(0);
  const left = file.ground_force2_vy ?? new Float64Array(0);
  const total = right.map((f, n) => f + left[n]!);

  it.skipIf(!there)('stands at the stated weight with the stated SD', () => {
    expect(Math.abs(mean(total, 0, 500) - stance)).toBeLessThan(0.05 + 1e-9);
    expect(Math.abs(sd(total, 0, 500) - spread)).toBeLessThan(0.05 + 1e-9);
  });

  it.skipIf(!there)('leaves the ground three times', () => {
    const flights: { start: number; length: number }[] = [];
    for (let n = 1; n < total.length; n++) {
      if (total[n]! >= 20) continue;
      if (total[n - 1]! >= 20) flights.push({ start: n, length: 0 });
      const flight = flights[flights.length - 1];
      if (flight) flight.length++;
    }
    const long = flights.filter(({ length }) => length >= 100);
    expect(long).toHaveLength(3);
    long.forEach((flight, i) => {
      expect(Math.abs(flight.start / 1000 - starts[i]!)).toBeLessThan(0.01);
      expect(Math.abs(flight.length / 1000 - lasts[i]!)).toBeLessThan(0.0025);
    });
  });

  it.skipIf(!there)('takes the same weight from the baseline before the first push, within its sway', () => {
    // Up to the first take-off a jump looks like a short pull from standing, so sections 2 and 3 apply; the window is
    // the 0.5 s the statement was made with, for one of the three stands still no longer.
    const until = Math.round(starts[0]! * 1000);
    const [trial] = analysePlainly(
      inputOf(1000, total, {
        left,
        right,
        span: { start: 0, end: until },
        baselineSeconds: 0.5,
        pull: { planned: 1, warnUnder: 0, failUnder: 0 },
      }),
    );
    const { mean: B } = must(trial!.events!.baseline);
    expect(Math.abs(B - stance)).toBeLessThan(0.02 * stance);
    const share = must(trial!.metrics.standing_share_right!);
    expect(share).toBeGreaterThan(40);
    expect(share).toBeLessThan(60);
  });
});
