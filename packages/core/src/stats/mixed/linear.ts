import { CholeskyDecomposition, type Matrix } from 'ml-matrix';

/** Cholesky factor of a matrix that is symmetric but for the last digits of its sums. */
export const cholesky = (matrix: Matrix): CholeskyDecomposition =>
  new CholeskyDecomposition(matrix.clone().add(matrix.transpose()).mul(0.5));

/** log|A| by its Cholesky factor. */
export function logDeterminant({ lowerTriangularMatrix: lower }: CholeskyDecomposition): number {
  let sum = 0;
  for (let i = 0; i < lower.rows; i++) sum += 2 * Math.log(lower.get(i, i));
  return sum;
}
