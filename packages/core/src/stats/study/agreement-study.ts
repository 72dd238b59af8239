import { have, lack, type Outcome } from '../../outcome.ts';
import { type LimitsOfAgreement, limitsOfAgreement, type Proportional, proportional } from '../agreement/index.ts';
import { usualLevel } from '../interval.ts';
import {
  biasOf,
  type DemingLine,
  demingLine,
  leastProducts,
  type MethodLine,
  type PassingBablokLine,
  passingBablok,
} from '../lines/index.ts';

/** Two methods on the same things: limits of agreement and three lines between them. */
export interface AgreementStudy {
  readonly n: number;
  readonly level: number;
  /** Differences are second minus first. */
  readonly limits: Outcome<LimitsOfAgreement>;
  readonly proportional: Outcome<Proportional>;
  readonly leastProducts: Outcome<MethodLine & { readonly r: number }>;
  readonly deming: Outcome<DemingLine>;
  readonly passingBablok: Outcome<PassingBablokLine>;
  /** What ordinary least products say. */
  readonly bias: { readonly fixed: boolean; readonly proportional: boolean } | undefined;
  readonly small: boolean;
}

/**
 * Agreement of two methods; the first is x, the second y.
 *
 * @param ratio error variance of the second over that of the first, for Deming's line
 * @returns `too-few-values` under three pairs
 */
export function agreementStudy(
  first: readonly number[],
  second: readonly number[],
  { level = usualLevel, ratio = 1 }: { readonly level?: number; readonly ratio?: number } = {},
): Outcome<AgreementStudy> {
  if (first.length !== second.length) throw new RangeError('Both methods have a value for each pair.');
  if (first.length < 3) return lack('too-few-values');
  const products = leastProducts(first, second, level);
  return have({
    n: first.length,
    level,
    limits: limitsOfAgreement(
      second.map((value, i) => value - (first[i] as number)),
      { level },
    ),
    proportional: proportional(second, first),
    leastProducts: products,
    deming: demingLine(first, second, ratio, level),
    passingBablok: passingBablok(first, second, level),
    bias: products.ok ? biasOf(products.value) : undefined,
    small: first.length < 30,
  });
}
