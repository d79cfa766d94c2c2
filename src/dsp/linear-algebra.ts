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
export function symmetricEigen(rows: readonly Float64Array[]): SymmetricEigen {
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
export function eigenvalues(rows: readonly Float64Array[]): [real: number, imaginary: number][] {
  const { realEigenvalues, imaginaryEigenvalues } = new EigenvalueDecomposition(matrixOf(rows));
  return realEigenvalues.map((real, k) => [real, imaginaryEigenvalues[k]!]);
}

/** Columns that others are fitted with. */
export interface ColumnSpace {
  /** Fits targets by least squares, each of the columns' length. */
  fit(targets: readonly Float64Array[]): LinearFit;
  /** By column: the variance of its number in a solution per unit variance of the target's errors. */
  variances(): Float64Array;
}

/** What a linear fit gave. */
interface LinearFit {
  /** `solutions[t]` belongs to `targets[t]`: one number for each column. */
  readonly solutions: readonly Float64Array[];
  /** What the columns leave of each target. */
  readonly residuals: readonly Float64Array[];
}

/** Columns alike to this share of their energy are told apart no more: they share what they have in common. */
const RIDGE = 1e-10;

/**
 * Prepares columns for fitting by least squares.
 *
 * The normal equations square the columns' likeness; with columns of length 1 and a little added to the diagonal, two that
 * agree to five digits are as good as one.
 *
 * @param columns - at least one, each of shape `[n]` and not all zero
 * @returns null where rounding does not let them be told apart
 * @example columnSpace([[1, 1]]).fit([[1, 3]]).solutions // [[2]]
 */
export function columnSpace(columns: readonly Float64Array[]): ColumnSpace | null {
  const lengths = columns.map((column) => Math.sqrt(dot(column, column)));
  const units = columns.map((column, c) => column.map((value) => value / lengths[c]!));
  const normal = units.map(() => new Float64Array(units.length));
  for (const [i, a] of units.entries()) {
    for (let j = 0; j <= i; j++) normal[i]![j] = normal[j]![i] = dot(a, units[j]!) + (i === j ? RIDGE : 0);
  }
  const parts = new CholeskyDecomposition(matrixOf(normal));
  if (!parts.isPositiveDefinite()) return null;
  const triangle = parts.lowerTriangularMatrix.to2DArray();
  return {
    fit(targets) {
      const shares = targets.map((target) =>
        solved(
          triangle,
          units.map((unit) => dot(unit, target)),
        ),
      );
      return {
        solutions: shares.map((values) => Float64Array.from(values, (value, c) => value / lengths[c]!)),
        residuals: targets.map((target, t) => {
          const left = target.slice();
          for (const [c, unit] of units.entries()) {
            const share = shares[t]![c]!;
            for (let n = 0; n < left.length; n++) left[n]! -= share * unit[n]!;
          }
          return left;
        }),
      };
    },
    variances: () =>
      Float64Array.from(lengths, (length, c) => {
        const unit = lengths.map((_, k) => (k === c ? 1 : 0));
        return solved(triangle, unit)[c]! / length ** 2;
      }),
  };
}

/** Solves L L' x = y, with L lower triangular. */
function solved(triangle: readonly (readonly number[])[], y: readonly number[]): number[] {
  const x = [...y];
  for (const [row, values] of triangle.entries()) {
    for (let c = 0; c < row; c++) x[row]! -= values[c]! * x[c]!;
    x[row]! /= values[row]!;
  }
  for (let row = x.length - 1; row >= 0; row--) {
    for (let below = row + 1; below < x.length; below++) x[row]! -= triangle[below]![row]! * x[below]!;
    x[row]! /= triangle[row]![row]!;
  }
  return x;
}

function matrixOf(rows: readonly Float64Array[]): Matrix {
  return new Matrix(rows);
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let n = 0; n < a.length; n++) sum += a[n]! * b[n]!;
  return sum;
}
