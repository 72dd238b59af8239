import { Matrix } from 'ml-matrix';
import type { MixedData } from './model.ts';

/** One person's share of the cross products, by rows: Z'Z, Z'X and Z'y for so many random effects. */
export interface Group {
  readonly person: string;
  readonly size: number;
  readonly zz: Float64Array;
  readonly zx: Float64Array;
  readonly zy: Float64Array;
}

/** Everything a fit needs of the data. */
export interface Products {
  readonly n: number;
  readonly p: number;
  readonly names: readonly string[];
  readonly xx: Matrix;
  readonly xy: Matrix;
  readonly yy: number;
  /** Taken off y, so that a large common value costs no digits; goes back to the intercept. */
  readonly shift: number;
  readonly groups: readonly Group[];
  /** The random factor L of one group for parameters theta, by rows: covariance of its effects is residual variance L L'. */
  readonly factor: (theta: readonly number[], size: number) => Float64Array;
  readonly parameters: number;
}

/** Cross products of the data. */
export function productsOf({ y, person, fixed = [], random }: MixedData): Products {
  const n = y.length;
  const shift = y.reduce((sum, value) => sum + value, 0) / n;
  const columns = [new Array<number>(n).fill(1), ...fixed.map(({ values }) => values)];
  for (const column of [person, ...columns]) if (column.length !== n) throw new RangeError('Columns are equally long.');
  const x = new Matrix(n, columns.length);
  for (const [j, column] of columns.entries()) for (let i = 0; i < n; i++) x.set(i, j, column[i] as number);
  const observed = Matrix.columnVector(y.map((value) => value - shift));
  const rows = new Map<string, number[]>();
  for (const [i, one] of person.entries()) {
    const id = String(one);
    const of = rows.get(id);
    if (of === undefined) rows.set(id, [i]);
    else of.push(i);
  }
  const groups = [...rows].map(([id, of]) => {
    const z = effectsOf(random, of).transpose();
    const some = of.map((i) => x.getRow(i));
    const flat = (matrix: Matrix) => Float64Array.from(matrix.to1DArray());
    return {
      person: id,
      size: z.rows,
      zz: flat(z.mmul(z.transpose())),
      zx: flat(z.mmul(new Matrix(some))),
      zy: flat(z.mmul(Matrix.columnVector(of.map((i) => observed.get(i, 0))))),
    };
  });
  const xt = x.transpose();
  return {
    ...{ n, p: columns.length, shift, groups },
    names: ['intercept', ...fixed.map(({ name }) => name)],
    xx: xt.mmul(x),
    xy: xt.mmul(observed),
    yy: observed.transpose().mmul(observed).get(0, 0),
    ...factors[random.kind],
  };
}

/** Columns of one person's random effects at the given rows. */
function effectsOf(random: MixedData['random'], of: readonly number[]): Matrix {
  if (random.kind === 'person') return new Matrix(of.map(() => [1]));
  if (random.kind === 'person-and-slope') return new Matrix(of.map((i) => [1, random.time[i] as number]));
  const sessions = [...new Set(of.map((i) => String(random.session[i])))];
  return new Matrix(of.map((i) => [1, ...sessions.map((one) => (one === String(random.session[i]) ? 1 : 0))]));
}

const factors = {
  person: { parameters: 1, factor: ([a = 0]: readonly number[]) => Float64Array.of(a) },
  'person-and-slope': {
    parameters: 3,
    factor: ([a = 0, b = 0, c = 0]: readonly number[]) => Float64Array.of(a, 0, b, c),
  },
  'person-and-session': {
    parameters: 2,
    factor: ([a = 0, b = 0]: readonly number[], size: number) => {
      const l = new Float64Array(size * size);
      for (let i = 0; i < size; i++) l[i * size + i] = i === 0 ? a : b;
      return l;
    },
  },
} as const;
