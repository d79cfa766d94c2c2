import { CholeskyDecomposition, EigenvalueDecomposition, Matrix } from "ml-matrix";

/** The only door to the matrix library. */

/** Eigenvalues of a symmetric matrix, largest first, with their vectors. */
export interface SymmetricEigen {
  readonly values: Float64Array;
  /** `vectors[k]` belongs to `values[k]`: of length 1, at right angles to all others. */
  readonly vectors: readonly Float64Array[];
}

/**
 * Takes a symmetric matrix apart.
 *
 * @param rows - shape `[n][n]`
 * @example symmetricEigen([[2, 0], [0, 3]]).values // [3, 2]
 */
export function symmetricEigen(rows: readonly ArrayLike<number>[]): SymmetricEigen {
  const parts = new EigenvalueDecomposition(matrixOf(rows), { assumeSymmetric: true });
  const { realEigenvalues, eigenvectorMatrix } = parts;
  const order = realEigenvalues.map((_, k) => k).sort((a, b) => realEigenvalues[b]! - realEigenvalues[a]!);
  return {
    values: Float64Array.from(order, (k) => realEigenvalues[k]!),
    vectors: order.map((k) => Float64Array.from(rows, (_, row) => eigenvectorMatrix.get(row, k))),
  };
}

/**
 * Eigenvalues of any square matrix.
 *
 * @param rows - shape `[n][n]`
 * @returns real and imaginary parts, in no order; those that are not real come in conjugate pairs
 * @example eigenvalues([[0, -1], [1, 0]]) // [0, 1] and [0, -1]
 */
export function eigenvalues(rows: readonly ArrayLike<number>[]): [real: number, imaginary: number][] {
  const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(matrixOf(rows));
  return realEigenvalues.map((real, k) => [real, imaginaryEigenvalues[k]!]);
}

/** What a linear fit gave. */
export interface LinearFit {
  /** `solutions[t]` belongs to `targets[t]`: one number for each column. */
  readonly solutions: readonly Float64Array[];
  /** What the columns leave of each target. */
  readonly residuals: readonly Float64Array[];
  /** By column: the variance of its number in a solution per unit variance of the target's errors. */
  readonly variances: Float64Array;
}

/** Columns alike to this share of their energy are told apart no more: they share what they have in common. */
const RIDGE = 1e-10;

/**
 * Fits columns to targets by least squares.
 *
 * The normal equations square the columns' likeness; with columns of length 1 and a little added to the diagonal, two that
 * agree to five digits are as good as one.
 *
 * @param columns - each of shape `[n]`, none of them all zero
 * @param targets - each of shape `[n]`
 * @returns null where the columns cannot be told apart
 * @example leastSquares([[1, 1]], [[1, 3]]).solutions // [[2]]
 */
export function leastSquares(
  columns: readonly Float64Array[],
  targets: readonly Float64Array[],
): LinearFit | null {
  const lengths = columns.map((column) => Math.sqrt(dot(column, column)));
  const units = columns.map((column, k) => column.map((value) => value / lengths[k]!));
  const normal = units.map((a, i) => units.map((b, j) => dot(a, b) + (i === j ? RIDGE : 0)));
  const parts = new CholeskyDecomposition(matrixOf(normal));
  if (!parts.isPositiveDefinite()) return null;
  const solved = parts.solve(matrixOf(units.map((unit) => targets.map((target) => dot(unit, target)))));
  const inverse = parts.solve(Matrix.eye(units.length));
  return {
    solutions: targets.map((_, t) => Float64Array.from(lengths, (length, c) => solved.get(c, t) / length)),
    residuals: targets.map((target, t) => {
      const left = target.slice();
      for (const [c, unit] of units.entries()) {
        const share = solved.get(c, t);
        for (let n = 0; n < left.length; n++) left[n]! -= share * unit[n]!;
      }
      return left;
    }),
    variances: Float64Array.from(lengths, (length, c) => inverse.get(c, c) / length ** 2),
  };
}

function matrixOf(rows: readonly ArrayLike<number>[]): Matrix {
  return new Matrix(rows.map((row) => Array.from(row)));
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < a.length; n++) sum += a[n]! * b[n]!;
  return sum;
}
