import { have, lack, type Outcome } from '../../outcome.ts';
import { fisherF } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';
import type { MeanSquares } from './mean-squares.ts';

/** The six forms of Shrout & Fleiss, with the names of McGraw & Wong. */
export const iccForms = {
  '1,1': { also: 'ICC(1)', of: 'one-way', means: 'single', definition: 'agreement' },
  '2,1': { also: 'ICC(A,1)', of: 'two-way', means: 'single', definition: 'agreement' },
  '3,1': { also: 'ICC(C,1)', of: 'two-way', means: 'single', definition: 'consistency' },
  '1,k': { also: 'ICC(k)', of: 'one-way', means: 'mean of k', definition: 'agreement' },
  '2,k': { also: 'ICC(A,k)', of: 'two-way', means: 'mean of k', definition: 'agreement' },
  '3,k': { also: 'ICC(C,k)', of: 'two-way', means: 'mean of k', definition: 'consistency' },
} as const;
export type IccForm = keyof typeof iccForms;

/**
 * An intraclass correlation with its exact interval. Negative values are given as computed.
 *
 * Forms and intervals by Shrout & Fleiss 1979 (Psychol Bull 86:420-428) and McGraw & Wong 1996 (Psychol Methods 1:30-46); the
 * interval of agreement takes Satterthwaite's degrees of freedom, which need not be whole. The k forms follow from the single ones
 * (Spearman-Brown), as do their limits.
 *
 * @returns `no-spread` where all values are equal
 */
export function icc(squares: MeanSquares, form: IccForm, level = usualLevel): Outcome<Estimate> {
  const { of, definition } = iccForms[form];
  const single = of === 'one-way' ? oneWayIcc(squares, level) : twoWayIcc(squares, definition, level);
  if (single === undefined) return lack('no-spread');
  if (!form.endsWith('k')) return have(single);
  const k = squares.occasions;
  const stepped = (r: number) => (k * r) / (1 + (k - 1) * r);
  return have({ value: stepped(single.value), low: stepped(single.low), high: stepped(single.high), level });
}

function oneWayIcc({ between, within, occasions: k }: MeanSquares, level: number): Estimate | undefined {
  if (between.mean + (k - 1) * within.mean <= 0) return undefined;
  return consistent(between, within, k, level);
}

function twoWayIcc(squares: MeanSquares, definition: 'agreement' | 'consistency', level: number): Estimate | undefined {
  const { between, occasion, error, occasions: k, people: n } = squares;
  if (definition === 'consistency')
    return between.mean + (k - 1) * error.mean > 0 ? consistent(between, error, k, level) : undefined;
  const [b, j, e] = [between.mean, occasion.mean, error.mean];
  const below = b + (k - 1) * e + (k * (j - e)) / n;
  if (below <= 0) return undefined;
  const value = (b - e) / below;
  if (value === 1) return estimate(1, 1, 1, level);
  const a = (k * value) / (n * (1 - value));
  const c = 1 + (k * value * (n - 1)) / (n * (1 - value));
  const df = (a * j + c * e) ** 2 / ((a * j) ** 2 / occasion.df + (c * e) ** 2 / error.df);
  const p = upperProbability(level);
  const lower = fisherF.quantile(p, n - 1, df);
  const upper = fisherF.quantile(p, df, n - 1);
  const rest = k * j + (k * n - k - n) * e;
  return {
    value,
    low: (n * (b - lower * e)) / (lower * rest + n * b),
    high: (n * (upper * b - e)) / (rest + n * upper * b),
    level,
  };
}

/** (MS - MSe) / (MS + (k-1) MSe); its limits by F with the degrees of freedom of the two. */
function consistent(
  between: { readonly mean: number; readonly df: number },
  error: { readonly mean: number; readonly df: number },
  k: number,
  level: number,
): Estimate {
  const of = (f: number) => (f === Number.POSITIVE_INFINITY ? 1 : (f - 1) / (f + k - 1));
  const f = between.mean / error.mean;
  const p = upperProbability(level);
  const low = f / fisherF.quantile(p, between.df, error.df);
  const high = f * fisherF.quantile(p, error.df, between.df);
  return { value: of(f), low: of(low), high: of(high), level };
}

/** Bands of Koo & Li 2016 (J Chiropr Med 15:155-163), judged on the whole interval. */
export type IccBand = 'poor' | 'moderate' | 'good' | 'excellent';
const bandOf = (r: number): IccBand => (r < 0.5 ? 'poor' : r < 0.75 ? 'moderate' : r <= 0.9 ? 'good' : 'excellent');

/** The band of the lower and of the upper limit. */
export const iccBands = ({ low, high }: Estimate): readonly [IccBand, IccBand] => [bandOf(low), bandOf(high)];
