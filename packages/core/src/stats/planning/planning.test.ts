import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../simulation/index.ts';
import { meanSquares } from '../reliability/index.ts';
import {
  confirmableGrid,
  errorParts,
  expectedIccInterval,
  iccPower,
  peopleForIcc,
  peopleForIccPower,
  peopleForTypicalError,
} from './index.ts';

describe('a reliability study before it is made', () => {
  it('has just enough people, and one fewer is not enough', () => {
    const width = (people: number) => {
      const { low, high } = expectedIccInterval(0.9, { people, occasions: 2 });
      return high - low;
    };
    const people = peopleForIcc(0.9, 2, 0.1) as number;
    expect(width(people)).toBeLessThanOrEqual(0.1);
    expect(width(people - 1)).toBeGreaterThan(0.1);
    expect(peopleForIcc(0.9, 2, 1e-6)).toBeUndefined();
  });

  // Hopkins 2000, Sports Med 30:1-15: about 50 people and three trials for reasonable precision.
  it('for the typical error', () => {
    const people = peopleForTypicalError(3, 1.15) as number;
    expect(people).toBeGreaterThan(40);
    expect(people).toBeLessThan(70);
    expect(peopleForTypicalError(2, 1.15) as number).toBeGreaterThan(people);
  });

  it('has the power it says, in simulated studies', () => {
    const study = { people: 20, occasions: 3 };
    const power = iccPower(0.85, 0.7, study);
    const draw = seededRandom(7, 0);
    const people = Array.from({ length: 4000 }, () => {
      const table = Array.from({ length: study.people }, () => {
        const own = draw.gaussian() * Math.sqrt(0.85);
        return Array.from({ length: study.occasions }, () => own + draw.gaussian() * Math.sqrt(0.15));
      });
      const squares = meanSquares(table);
      if (!squares.ok) throw new Error(squares.reason);
      return squares.value.twoWay.f;
    });
    // The critical value by the definition of the test.
    const critical = people.filter((f) => f > criticalF(study, 0.7)).length / people.length;
    expect(Math.abs(critical - power)).toBeLessThan(4 * Math.sqrt((power * (1 - power)) / people.length));
    const enough = peopleForIccPower(0.85, 0.7, 3) as number;
    expect(iccPower(0.85, 0.7, { people: enough, occasions: 3 })).toBeGreaterThanOrEqual(0.8);
    expect(iccPower(0.85, 0.7, { people: enough - 1, occasions: 3 })).toBeLessThan(0.8);
  });
});

/** 95 % quantile of F(19, 38) from R 4.2.2, qf(0.95, 19, 38), times (1 + 2 r) / (1 - r). */
function criticalF({ occasions: k }: { readonly occasions: number }, r: number): number {
  return (1.867332 * (1 + (k - 1) * r)) / (1 - r);
}

describe('what a test can confirm', () => {
  it('takes the error of a session apart and puts it together for other numbers of trials', () => {
    // TE of the mean of two trials 3, within-session SD 2: between^2 = 9 - 4/2 = 7.
    const parts = errorParts({ value: 3, df: 40 }, { value: 2, df: 60 }, 2);
    expect(parts.between).toBeCloseTo(Math.sqrt(7), 12);
    const grid = confirmableGrid(parts, { df: 40, worthwhile: 1 }, [1, 2, 4], [1, 2]);
    expect(grid.map(({ trials, sessions }) => [trials, sessions])).toEqual([
      [1, 1],
      [2, 1],
      [4, 1],
      [1, 2],
      [2, 2],
      [4, 2],
    ]);
    expect(grid.map(({ error }) => error ** 2)).toEqual([11, 9, 8, 11, 9, 8].map((v) => expect.closeTo(v, 10)));
    // Tables of t, 40 df: t(0.95) = 1.684, t(0.80) = 0.851; SWC + (t + t) TE sqrt(2).
    expect(grid[1]?.confirmable).toBeCloseTo(1 + (1.6839 + 0.8507) * 3 * Math.SQRT2, 2);
    expect((grid[4]?.confirmable as number) - 1).toBeCloseTo(((grid[1]?.confirmable as number) - 1) / Math.SQRT2, 10);
  });

  it('leaves nothing between sessions where trials alone explain the error', () => {
    expect(errorParts({ value: 1, df: 9 }, { value: 3, df: 20 }, 2).between).toBe(0);
  });
});
