import { chiSquare, fisherF } from '../distributions/index.ts';
import { upperProbability, usualLevel } from '../interval.ts';

/** A study of n people on k occasions, two-way, that is still to be made. */
export interface PlannedStudy {
  readonly people: number;
  readonly occasions: number;
}

const mostPeople = 100_000;

/** Interval of ICC(3,1) a study gives when it finds just the value expected. */
export function expectedIccInterval(icc: number, { people: n, occasions: k }: PlannedStudy, level = usualLevel) {
  const f = (1 + (k - 1) * icc) / (1 - icc);
  const [a, b] = [n - 1, (n - 1) * (k - 1)];
  const p = upperProbability(level);
  const of = (x: number) => (x - 1) / (x + k - 1);
  return { low: of(f / fisherF.quantile(p, a, b)), high: of(f * fisherF.quantile(p, b, a)) };
}

/** People needed so that the interval of the expected ICC(3,1) is no wider than this; undefined beyond 100 000. */
export function peopleForIcc(icc: number, occasions: number, width: number, level = usualLevel): number | undefined {
  return fewest((people) => {
    const { low, high } = expectedIccInterval(icc, { people, occasions }, level);
    return high - low <= width;
  });
}

/**
 * People needed so that the upper limit of the typical error is at most `factor` times the error: sqrt(df / chi-square), df (n-1)(k-1).
 */
export function peopleForTypicalError(occasions: number, factor: number, level = usualLevel): number | undefined {
  const p = 1 - upperProbability(level);
  return fewest((people) => {
    const df = (people - 1) * (occasions - 1);
    return Math.sqrt(df / chiSquare.quantile(p, df)) <= factor;
  });
}

/**
 * Power of a one-sided test that the ICC exceeds `least` when it is `icc`: F / c follows F(n-1, (n-1)(k-1)), c = (1 + (k-1) ICC) / (1 -
 * ICC).
 *
 * Source: Donner & Eliasziw 1987, Stat Med 6:441-448 (from memory); here with the error mean square of two-way data.
 */
export function iccPower(icc: number, least: number, { people: n, occasions: k }: PlannedStudy, alpha = 0.05): number {
  const c = (r: number) => (1 + (k - 1) * r) / (1 - r);
  const [a, b] = [n - 1, (n - 1) * (k - 1)];
  return fisherF.above((fisherF.quantile(1 - alpha, a, b) * c(least)) / c(icc), a, b);
}

/** People needed for that power. */
export function peopleForIccPower(icc: number, least: number, occasions: number, power = 0.8, alpha = 0.05) {
  return fewest((people) => iccPower(icc, least, { people, occasions }, alpha) >= power);
}

/** Smallest number from 2 on that is enough, for something that stays enough. */
function fewest(enough: (people: number) => boolean): number | undefined {
  let high = 2;
  while (!enough(high)) {
    high *= 2;
    if (high > mostPeople) return undefined;
  }
  let low = Math.max(1, high / 2);
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (enough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
