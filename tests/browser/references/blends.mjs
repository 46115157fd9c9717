// The best amounts from a shelf by a library of quadratic programmes: least squares, of nought and more.
import assert from "node:assert/strict";
import { test } from "node:test";

import { Matrix, SingularValueDecomposition } from "ml-matrix";
import { solveQP } from "quadprog";

import { Comparison, given } from "../support/cases.mjs";

/** The library counts from one, as its model in Fortran does. */
const fromOne = (list) => [undefined, ...list];
const rowsFromOne = (matrix) => fromOne(matrix.to2DArray().map(fromOne));

/** Least of ½xᵀ(AᵀA)x − (Aᵀb)ᵀx with x ≥ 0, each column of A of length one. */
function leastSquares(matrix, aim) {
  const lengths = Array.from({ length: matrix.columns }, (_, column) => matrix.getColumnVector(column).norm());
  const scaled = Matrix.mul(matrix, 1);
  lengths.forEach((length, column) => scaled.mulColumn(column, 1 / length));
  const squares = scaled.transpose().mmul(scaled);
  const products = scaled.transpose().mmul(aim).to1DArray();
  const positive = Matrix.eye(matrix.columns);
  const { solution, message } = solveQP(rowsFromOne(squares), fromOne(products), rowsFromOne(positive), fromOne(lengths.map(() => 0)));
  assert.equal(message, "", `${message} (seed ${given.seed})`);
  return solution.slice(1).map((amount, column) => amount / lengths[column]);
}

/** A thing that another is a multiple of brings nothing of its own, nor one that holds nothing wanted: the rest of the shelf. */
function differing(matrix) {
  const chosen = [];
  for (let column = 0; column < matrix.columns; column += 1) {
    const own = matrix.getColumnVector(column);
    const isParallel = (other) => own.dot(matrix.getColumnVector(other)) > (1 - 1e-9) * own.norm() * matrix.getColumnVector(other).norm();
    if (own.norm() > 0 && !chosen.some(isParallel)) chosen.push(column);
  }
  return matrix.subMatrixColumn(chosen);
}

/** Below this the library's own answers are no longer good to what is asked of them. */
const LEAST_INDEPENDENCE = 1e-3;

/** How far the columns are from standing in for one another; the library bears none that do. `tests/feed_mixer.rs` judges those. */
function independence(matrix) {
  if (matrix.columns === 0 || matrix.columns > matrix.rows) return 0;
  const columns = matrix.clone();
  for (let column = 0; column < columns.columns; column += 1) columns.mulColumn(column, 1 / columns.getColumnVector(column).norm());
  const { diagonal } = new SingularValueDecomposition(columns);
  return Math.min(...diagonal) / Math.max(...diagonal);
}

function compare(comparison, { percents, target, grams, had, residual }) {
  // A nutrient of which none is wanted is not counted.
  const rows = target.map((wanted, row) => ({ wanted, row })).filter(({ wanted }) => wanted > 0);
  const matrix = differing(new Matrix(rows.map(({ wanted, row }) => percents.map((thing) => (10 * thing[row]) / wanted))));
  if (independence(matrix) < LEAST_INDEPENDENCE) return;
  comparison.next();
  const aim = Matrix.columnVector(rows.map(() => 1));
  const best = leastSquares(matrix, aim);
  const reached = matrix.mmul(Matrix.columnVector(best));
  comparison.agree("what is left", residual, Matrix.sub(reached, aim).norm(), 1e-9, 1e-9);
  // Several mixes may be equally good, but what they come to is one.
  rows.forEach(({ wanted, row }, place) => {
    comparison.agree("a nutrient, share of its target", had[row] / wanted, reached.get(place, 0), 1e-8, 1e-8);
  });
  for (const amount of grams) assert.ok(amount >= 0, `${amount} g (seed ${given.seed})`);
}

test("no library finds better amounts for a shelf", () => {
  const comparison = new Comparison("shelves", "quadprog");
  for (const blend of given.blends) compare(comparison, blend);
  comparison.report();
  assert.ok(comparison.count >= 100, `${comparison.count} shelves are too few (seed ${given.seed})`);
});

test("a mix that leaves a thousandth more is noticed", () => {
  const comparison = new Comparison("shelves", "quadprog");
  assert.throws(() => given.blends.forEach((blend) => compare(comparison, { ...blend, residual: blend.residual * 1.001 })));
});
