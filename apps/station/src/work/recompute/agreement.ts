import type { AgreementFound } from '@sthene/contract';
import type { Outcome } from '@sthene/core';
import {
  agreementStudy,
  biasOf,
  type demingLine,
  leastProducts,
  limitsOfAgreement,
  type passingBablok,
  proportional,
  usualLevel,
} from '@sthene/core/stats';

/** Up to so many pairs the lines that compare every pair with every other are fitted too. */
const mostForAllLines = 400;

/**
 * Agreement of two methods as `agreementStudy` has it; the lines whose work grows with the square of the pairs only where asked for and
 * for few pairs.
 */
export function agreementOf(
  first: readonly number[],
  second: readonly number[],
  allLines: boolean,
): Outcome<AgreementFound> {
  if (first.length < 3) return { ok: false, reason: 'too-few-values' };
  if (allLines && first.length <= mostForAllLines) {
    const study = agreementStudy(first, second);
    return study.ok ? { ok: true, value: sendable(study.value) } : study;
  }
  const products = leastProducts(first, second);
  const found = {
    n: first.length,
    level: usualLevel,
    limits: limitsOfAgreement(second.map((value, i) => value - (first[i] as number))),
    proportional: proportional(second, first),
    leastProducts: products,
    bias: products.ok ? biasOf(products.value) : undefined,
    small: first.length < 30,
  };
  return { ok: true, value: sendable(found) };
}

type Found = Omit<AgreementFound, 'limits' | 'proportional' | 'leastProducts' | 'deming' | 'passingBablok' | 'bias'> & {
  readonly limits: ReturnType<typeof limitsOfAgreement>;
  readonly proportional: ReturnType<typeof proportional>;
  readonly leastProducts: ReturnType<typeof leastProducts>;
  readonly deming?: ReturnType<typeof demingLine>;
  readonly passingBablok?: ReturnType<typeof passingBablok>;
  readonly bias?: AgreementFound['bias'];
};

/** Without fields that are absent, and with numbers alone: a perfect line has no p that could be sent. */
function sendable({ bias, proportional: about, ...rest }: Found): AgreementFound {
  const line = about.ok && { ...about.value.line };
  return {
    ...rest,
    proportional:
      about.ok && line
        ? {
            ok: true,
            value: {
              line: {
                slope: line.slope,
                intercept: line.intercept,
                ...(Number.isFinite(line.p) ? { p: line.p } : {}),
              },
              spread: {
                r: about.value.spread.r,
                p: Number.isFinite(about.value.spread.p) ? about.value.spread.p : 1,
              },
            },
          }
        : (about as Extract<typeof about, { ok: false }>),
    ...(bias === undefined ? {} : { bias }),
  };
}
