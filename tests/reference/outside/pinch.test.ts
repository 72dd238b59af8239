import { describe, expect, it } from 'vitest';
import { analysePlainly, must } from '../plain/analyse.ts';
import { mean, sd } from '../plain/numbers.ts';
import { inputOf } from '../plain-input.ts';
import { columns, present } from './files.ts';

const name = 'isometric-pinch/pinchraw.csv';

// Twenty brief pinches, 500 Hz, 0.3 s (Ramsay and Silverman, Functional Data Analysis; data of the R package fda).
// The pulse begins 40 to 80 ms into each, so the windows are shortened: baseline 30 ms, anchor 50 ms.
describe.skipIf(!present(name))('isometric pinch', () => {
  const file = present(name) ? columns(name, 'time_s') : {};
  const trials = Object.entries(file)
    .filter(([heading]) => heading.startsWith('rep'))
    .map(([, force]) =>
      inputOf(500, force, {
        load: 'none',
        baselineSeconds: 0.03,
        anchorSeconds: 0.05,
        pull: { planned: 1, warnUnder: 0, failUnder: 0 },
      }),
    )
    .map((input) => analysePlainly(input));
  const peaks = Float64Array.from(trials, ([trial]) => must(trial!.metrics.peak_force!));
  const baselines = Float64Array.from(trials, ([trial]) => must(trial!.events!.baseline).mean);

  it('holds one effort in each of the 20', () => {
    expect(trials.map((found) => found.length)).toEqual(Array(20).fill(1));
  });

  it('finds peaks of 10.83 N on average, SD 0.86, from 9.05 to 12.28 (SOURCE.md)', () => {
    expect(mean(peaks, 0, 20)).toBeCloseTo(10.83, 2);
    expect(sd(peaks, 0, 20)).toBeCloseTo(0.86, 2);
    expect(Math.abs(Math.min(...peaks) - 9.05)).toBeLessThan(0.005);
    expect(Math.max(...peaks)).toBeCloseTo(12.28, 2);
  });

  it('finds baselines of 1.92 N on average (SOURCE.md)', () => {
    expect(Math.abs(mean(baselines, 0, 20) - 1.92)).toBeLessThan(0.03);
  });

  it('puts each onset after its baseline, below 25 % of the rise and before the peak', () => {
    for (const [trial] of trials) {
      const { p, Fp, baseline } = trial!.events!;
      const { index } = must(trial!.onset!);
      expect(index).toBeGreaterThanOrEqual(must(baseline).end);
      expect(index).toBeLessThan(p);
      expect(must(trial!.metrics.force_at_onset!)).toBeLessThan(
        must(baseline).mean + 0.25 * (Fp - must(baseline).mean),
      );
    }
  });

  it('has no body weight to subtract', () => {
    for (const [trial] of trials) expect(trial!.metrics.peak_force_net).toEqual({ reason: 'needs-body-weight' });
  });
});
