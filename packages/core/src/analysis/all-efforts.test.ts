import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { forcesOfCurve, request } from '../../test/pulls.ts';
import { seededRandom } from '../simulation/index.ts';
import { analyse } from './analyse.ts';

/** Standing at 700 N with efforts of given height (N) and start (s), each 3 s long, and a fixed ripple. */
function day(efforts: readonly { at: number; height: number; hold?: number }[], seconds: number): Float64Array {
  const random = seededRandom(7, 1);
  return Float64Array.from({ length: seconds * 1000 }, (_, i) => {
    let force = 700 + random.gaussian();
    for (const { at, height, hold = 3 } of efforts) {
      const t = i / 1000 - at;
      if (t > 0 && t < hold) force += height * (1 - Math.exp(-t / 0.1)) * (1 - 0.03 * t);
    }
    return force;
  });
}

const all = (curve: Float64Array) => analyse(request(forcesOfCurve(curve), { efforts: 'all' })).trials;

describe('several efforts of one recording', () => {
  it('are found in order of time, whatever their height', () => {
    const trials = all(
      day(
        [
          { at: 4, height: 1500 },
          { at: 14, height: 2000 },
          { at: 24, height: 1000 },
        ],
        32,
      ),
    );
    expect(trials.map(({ onset }) => onset.ok && Math.round(onset.value.index / 1000))).toEqual([4, 14, 24]);
  });

  it('leave out what is under 30 % of the largest, or shorter than 0.5 s', () => {
    const trials = all(
      day(
        [
          { at: 4, height: 2000 },
          { at: 14, height: 500 },
          { at: 24, height: 1500, hold: 0.45 },
        ],
        32,
      ),
    );
    expect(trials).toHaveLength(1);
  });

  it('give the same result, to the last digit, when searched in their own span', () => {
    const height = fc.integer({ min: 800, max: 2500 });
    fc.assert(
      fc.property(height, height, height, fc.integer({ min: 5, max: 14 }), (a, b, c, apart) => {
        const efforts = [a, b, c].map((one, i) => ({ at: 4 + i * apart, height: one }));
        const curve = day(efforts, 10 + 2 * apart);
        const trials = all(curve);
        expect(trials).toHaveLength(3);
        for (const trial of trials) {
          const again = analyse(request(forcesOfCurve(curve), { span: trial.span })).trials[0];
          expect(again).toEqual(trial);
        }
      }),
      { numRuns: 20 },
    );
  });

  it('take no onset by hand, and say so', () => {
    const curve = day(
      [
        { at: 4, height: 1500 },
        { at: 14, height: 2000 },
      ],
      22,
    );
    const onsetByHand = { index: 4000, by: 'M. Halvard', reason: 'seen' };
    const { trials, notices } = analyse(request(forcesOfCurve(curve), { efforts: 'all', onsetByHand }));
    expect(trials.every(({ onset }) => onset.ok && onset.value.rule === 'local-line')).toBe(true);
    expect(notices.map(({ code }) => code)).toEqual(['onset-by-hand-ignored']);
  });
});
