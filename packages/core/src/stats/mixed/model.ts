import { inverse, Matrix } from 'ml-matrix';
import { have, lack, type Outcome } from '../../outcome.ts';
import { studentT } from '../distributions/index.ts';
import { type Estimate, estimate, upperProbability, usualLevel } from '../interval.ts';
import type { ErrorOfTest } from '../reliability/index.ts';
import { criterionAt, type Profile, profileAt } from './criterion.ts';
import { type Products, productsOf } from './groups.ts';
import { cholesky } from './linear.ts';
import { derivatives, minimise } from './minimise.ts';

/** Values of many people, any number of them a person, in columns. */
export interface MixedData {
  readonly y: readonly number[];
  readonly person: readonly (string | number)[];
  /** Columns beside the intercept: occasion as 0/1 columns, time, phase. */
  readonly fixed?: readonly { readonly name: string; readonly values: readonly number[] }[];
  /** What differs from person to person: the level; level and trend; level and each session's own. */
  readonly random:
    | { readonly kind: 'person' }
    | { readonly kind: 'person-and-slope'; readonly time: readonly number[] }
    | { readonly kind: 'person-and-session'; readonly session: readonly (string | number)[] };
}

/** One fixed effect; degrees of freedom by Satterthwaite. */
export interface FixedEffect {
  readonly name: string;
  readonly estimate: Estimate;
  readonly standardError: number;
  readonly df: number;
  readonly t: number;
  readonly p: number;
}

export interface MixedModel {
  readonly values: number;
  readonly people: number;
  readonly fixed: readonly FixedEffect[];
  /** Variances between people: of the level, and of trend or session where there is one. */
  readonly level: number;
  readonly slope?: number;
  readonly session?: number;
  /** Between level and trend; absent where one of them has no spread. */
  readonly correlation?: number;
  /** SD of what is left, with Satterthwaite's degrees of freedom. */
  readonly residual: ErrorOfTest;
  /** level / (level + residual variance), of a model of the level alone. */
  readonly icc?: number;
  /** -2 restricted log likelihood. */
  readonly criterion: number;
  /** A variance is zero or a correlation one: the data do not tell the parts apart. */
  readonly singular: boolean;
  /** Each person's deviations, shrunk: level, then slope or sessions in the order they came. */
  readonly effects: ReadonlyMap<string, readonly number[]>;
}

/** Below this a random factor is zero. */
const vanishing = 1e-4;

/**
 * Linear mixed model by restricted maximum likelihood; people may have any number of values.
 *
 * y = X b + Z u + e, u ~ N(0, s^2 L L'), e ~ N(0, s^2). L is found by minimising the profiled criterion, s and b follow. Covariance of
 * (L, s) is twice the inverse of the second derivatives of the criterion; from it the degrees of freedom of the residual SD, s^2 / (2
 * Var s), and of each fixed effect, 2 V^2 / (g' A g).
 *
 * @returns `too-few-values` under two people, without a person that has two values, or with no value left over; `no-fit` where fixed
 *   effects cannot be told apart or nothing is left to explain
 * Sources: Bates et al. 2015, J Stat Softw 67(1):1-48; Kuznetsova et al. 2017, J Stat Softw 82(13):1-26.
 */
export function mixedModel(data: MixedData, level = usualLevel): Outcome<MixedModel> {
  const { y, random } = data;
  if (y.length === 0) return lack('too-few-values');
  const products = productsOf(data);
  const { n, p, groups } = products;
  if (groups.length < 2 || groups.length === n || n <= p + 1) return lack('too-few-values');
  if (profileAt(products, new Array<number>(products.parameters).fill(0)) === undefined) return lack('no-fit');
  const target = (theta: readonly number[]) => profileAt(products, theta)?.criterion ?? Number.POSITIVE_INFINITY;
  const theta = minimise(target, beginnings(products.parameters));
  const profile = profileAt(products, theta);
  if (profile === undefined || !(profile.squares > 1e-12 * products.yy)) return lack('no-fit');
  const sigma = Math.sqrt(profile.squares / (n - p));
  const free = theta.map((value, i) =>
    random.kind !== 'person-and-slope' || i !== 1 ? Math.abs(value) > vanishing : true,
  );
  const uncertainty = uncertaintyOf(products, theta, sigma, free);
  const variances = variancesOf(random.kind, theta, sigma);
  const residualDf =
    uncertainty === undefined
      ? n - p
      : sigma ** 2 / (2 * uncertainty.covariance.get(uncertainty.last, uncertainty.last));
  return have({
    values: n,
    people: groups.length,
    fixed: products.names.map((name, j) => fixedEffect(name, j, { products, profile, sigma, uncertainty, level })),
    ...variances,
    residual: { value: sigma, df: residualDf },
    ...(random.kind === 'person' ? { icc: variances.level / (variances.level + sigma ** 2) } : {}),
    criterion: profile.criterion,
    singular: free.includes(false),
    effects: effectsOf(products, theta, profile),
  });
}

function beginnings(parameters: number): readonly (readonly number[])[] {
  const sizes = [0.03, 0.3, 1, 3, 10];
  if (parameters === 1) return sizes.map((a) => [a]);
  const last = [0.01, 0.1, 1, 5];
  return sizes.flatMap((a) => last.map((b) => (parameters === 2 ? [a, b] : [a, 0, b])));
}

interface Uncertainty {
  readonly covariance: Matrix;
  /** Position of the residual SD among the free parameters. */
  readonly last: number;
  readonly full: (free: readonly number[]) => readonly number[];
  readonly at: readonly number[];
}

/** Covariance of the free random factors and the residual SD; undefined where the criterion does not curve up. */
function uncertaintyOf(
  products: Products,
  theta: readonly number[],
  sigma: number,
  free: readonly boolean[],
): Uncertainty | undefined {
  const df = products.n - products.p;
  const at = [...theta.filter((_, i) => free[i]), sigma];
  const full = (values: readonly number[]) => {
    let next = 0;
    return theta.map((value, i) => (free[i] ? (values[next++] as number) : value));
  };
  const target = (values: readonly number[]) => {
    const profile = profileAt(products, full(values));
    return profile === undefined ? Number.POSITIVE_INFINITY : criterionAt(profile, df, values.at(-1) as number);
  };
  const hessian = new Matrix(derivatives(target, at, 1e-3).hessian.map((row) => [...row]));
  if (!cholesky(hessian).isPositiveDefinite()) return undefined;
  return { covariance: inverse(hessian).mul(2), last: at.length - 1, full, at };
}

interface Fitted {
  readonly products: Products;
  readonly profile: Profile;
  readonly sigma: number;
  readonly uncertainty: Uncertainty | undefined;
  readonly level: number;
}

function fixedEffect(name: string, j: number, { products, profile, sigma, uncertainty, level }: Fitted): FixedEffect {
  const value = profile.beta.get(j, 0) + (j === 0 ? products.shift : 0);
  const variance = sigma ** 2 * profile.unscaled.get(j, j);
  const standardError = Math.sqrt(variance);
  const df = uncertainty === undefined ? products.n - products.p : satterthwaite(j, variance, products, uncertainty);
  const half = studentT.quantile(upperProbability(level), df) * standardError;
  const t = value / standardError;
  return {
    ...{ name, standardError, df, t },
    estimate: estimate(value, value - half, value + half, level),
    p: studentT.twoSided(t, df),
  };
}

function satterthwaite(j: number, variance: number, products: Products, { covariance, full, at }: Uncertainty): number {
  const varianceAt = (values: readonly number[]) =>
    (values.at(-1) as number) ** 2 * (profileAt(products, full(values)) as Profile).unscaled.get(j, j);
  const gradient = Matrix.columnVector([...derivatives(varianceAt, at, 1e-3).gradient]);
  return (2 * variance ** 2) / gradient.transpose().mmul(covariance).mmul(gradient).get(0, 0);
}

function variancesOf(kind: MixedData['random']['kind'], [a = 0, b = 0, c = 0]: readonly number[], sigma: number) {
  const s = sigma ** 2;
  if (kind === 'person') return { level: s * a * a };
  if (kind === 'person-and-session') return { level: s * a * a, session: s * b * b };
  const slope = b * b + c * c;
  const spread = Math.abs(a) * Math.sqrt(slope);
  return { level: s * a * a, slope: s * slope, ...(spread > 0 ? { correlation: (a * b) / spread } : {}) };
}

/** L M^-1 L' Z' (y - X b), person by person. */
function effectsOf({ groups, factor }: Products, theta: readonly number[], { beta }: Profile) {
  const effects = new Map<string, readonly number[]>();
  for (const { person, size, zz, zx, zy } of groups) {
    const square = (values: Float64Array) => Matrix.from1DArray(size, size, values);
    const l = square(factor(theta, size));
    const lt = l.transpose();
    const m = cholesky(Matrix.eye(size).add(lt.mmul(square(zz)).mmul(l)));
    const residual = Matrix.sub(Matrix.columnVector(zy), Matrix.from1DArray(size, beta.rows, zx).mmul(beta));
    effects.set(person, l.mmul(m.solve(lt.mmul(residual))).to1DArray());
  }
  return effects;
}
