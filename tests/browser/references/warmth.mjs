// Degree-days and numbers of animals by a library that integrates differential equations, and growth by the eigenvalues of another.
import assert from "node:assert/strict";
import { test } from "node:test";

import { EigenvalueDecomposition, Matrix } from "ml-matrix";
import { Solver } from "odex";

import { Comparison, given } from "../support/cases.mjs";

/** Integrates y' = slope(x, y) from one x to another. */
function integrated(slope, from, to, start) {
  const solver = new Solver(start.length);
  solver.absoluteTolerance = 1e-10;
  solver.relativeTolerance = 1e-10;
  solver.maxSteps = 1e6;
  return solver.solve(slope, from, start, to).y;
}

/** A day's temperature as one sine between its extremes, and what lies between the thresholds added up over the day. */
function degreeDays({ coolest, warmest, lower, upper }) {
  const [mean, swing] = [(warmest + coolest) / 2, (warmest - coolest) / 2];
  const temperature = (time) => mean - swing * Math.cos(2 * Math.PI * time);
  const rate = (time) => [Math.min(Math.max(temperature(time) - lower, 0), upper - lower)];
  // In pieces, so that the solver does not step over a corner.
  const corners = [0, 0.5];
  for (const threshold of [lower, upper]) {
    const cosine = (mean - threshold) / swing;
    if (Math.abs(cosine) < 1) corners.push(Math.acos(cosine) / (2 * Math.PI));
  }
  corners.sort((one, other) => one - other);
  let sum = 0;
  for (let piece = 1; piece < corners.length; piece += 1) {
    if (corners[piece] - corners[piece - 1] > 1e-12) sum += integrated(rate, corners[piece - 1], corners[piece], [0])[0];
  }
  // The second half of the day mirrors the first.
  return 2 * sum;
}

function compareWarmth(comparison, warmth) {
  comparison.next();
  comparison.agree("degree-days", warmth.degree_days, degreeDays(warmth), 1e-7, 1e-7);
}

/** Sub-stages of each stage before the adult, and before the first egg: as the program states them. */
const STEPS = { young: 16, beforeEggs: 4 };

/** The linear system of the stated life: which sub-stage is of which stage, and how each changes with the warmth. */
function system({ stages, pre_oviposition: before, adult_life: adultLife, eggs, females, survival }) {
  const whole = stages.reduce((sum, { degree_days: length }) => sum + length, 0);
  const loss = -Math.log(survival) / whole;
  const death = 1 / adultLife;
  const chain = stages.flatMap(({ stage, degree_days: length }) =>
    Array.from({ length: STEPS.young }, () => ({ stage, onwards: STEPS.young / length, dies: loss })),
  );
  chain.push(...Array.from({ length: STEPS.beforeEggs }, () => ({ stage: "Adult", onwards: STEPS.beforeEggs / before, dies: death })));
  chain.push({ stage: "Adult", onwards: 0, dies: death });
  const matrix = Matrix.zeros(chain.length, chain.length);
  chain.forEach(({ onwards, dies }, place) => {
    matrix.set(place, place, -(onwards + dies));
    if (place > 0) matrix.set(place, place - 1, chain[place - 1].onwards);
  });
  matrix.set(0, chain.length - 1, (females * eggs) / adultLife);
  return { chain, matrix };
}

const STAGES = ["Egg", "Young", "Pupa", "Adult"];

function byStage(chain, numbers) {
  return STAGES.map((stage) => numbers.reduce((sum, number, place) => (chain[place].stage === stage ? sum + number : sum), 0));
}

/** The fastest growth of a linear system, and the mixture that grows so. */
function steady(matrix) {
  const found = new EigenvalueDecomposition(matrix);
  const real = found.realEigenvalues.map((value, place) => ({ value, place }));
  const { value, place } = real.reduce((best, one) => (one.value > best.value ? one : best));
  const vector = found.eigenvectorMatrix.getColumn(place);
  const sum = vector.reduce((sum, part) => sum + part, 0);
  return { growth: value, mixture: vector.map((part) => part / sum) };
}

function comparePopulation(comparison, population) {
  comparison.next();
  const { chain, matrix } = system(population);
  const { growth, mixture } = steady(matrix);
  comparison.agree("growth a degree-day", population.growth, growth, 1e-6);
  let numbers = mixture.map((share) => 1000 * share);
  byStage(chain, numbers).forEach((number, stage) => comparison.agree("first day", population.start[stage], number, 1e-5, 1e-5));
  const rows = matrix.to2DArray();
  const slope = (_, now) => rows.map((row, place) => {
    // Each sub-stage gets from the one before it, the first from the last.
    const from = place === 0 ? now.length - 1 : place - 1;
    return row[place] * now[place] + row[from] * now[from];
  });
  for (const [warmth, isTreated] of population.days) {
    if (warmth > 0) numbers = integrated(slope, 0, warmth, numbers);
    if (isTreated) numbers = numbers.map((number, place) => number * (1 - population.kills[chain[place].stage]));
  }
  byStage(chain, numbers).forEach((number, stage) => comparison.agree("last day", population.end[stage], number, 1e-4, 1e-4));
}

test("degree-days are the warmth between the thresholds, added up", () => {
  const comparison = new Comparison("days of warmth", "odex");
  for (const warmth of given.warmth) compareWarmth(comparison, warmth);
  comparison.report();
  assert.equal(comparison.count, 100);
});

test("numbers of animals follow their equations", () => {
  const comparison = new Comparison("populations", "odex and ml-matrix");
  for (const population of given.populations) comparePopulation(comparison, population);
  comparison.report();
  assert.equal(comparison.count, 24);
});

test("a threshold that is half a degree off is noticed", () => {
  const warmth = given.warmth.find(({ degree_days: sum }) => sum > 1);
  assert.throws(() => compareWarmth(new Comparison("days of warmth", "odex"), { ...warmth, lower: warmth.lower + 0.5 }));
});
