// Every unit that can be chosen or stands on a label, by a library of units.
import assert from "node:assert/strict";
import { test } from "node:test";

import Qty from "js-quantities";

import { Comparison, given } from "../support/cases.mjs";

/** The library holds its factors to eight figures. */
const SHARE = 1e-7;

/** The program's words and the library's; what a number is held in. */
const UNITS = {
  "°C": ["tempC", "tempC"],
  "°F": ["tempF", "tempC"],
  mm: ["mm", "mm"],
  inches: ["in", null],
  m: ["m", "m"],
  ft: ["ft", "m"],
  lb: ["lb", "kg"],
  kg: ["kg", "kg"],
  cm: ["cm", "m"],
  "m²": ["m^2", "m^2"],
  "sq ft": ["ft^2", "m^2"],
  litres: ["liter", "liter"],
  pints: ["pint-imp", "liter"],
  "US pints": ["pint", "liter"],
  gallons: ["gallon-imp", "liter"],
  "US gallons": ["gallon", "liter"],
};

function compareField(comparison, { field, unit, typed, held, back }) {
  comparison.next();
  const known = UNITS[unit];
  assert.ok(known, `no unit “${unit}” of ${field}`);
  // Inches of rain are held in millimetres, inches of a pot in metres.
  const into = known[1] ?? (field === "rain" ? "mm" : "m");
  comparison.agree(`${field} in ${unit}`, held, Qty(typed, known[0]).to(into).scalar, SHARE, SHARE);
  comparison.agree(`${field} back in ${unit}`, back, typed, 1e-12, 1e-12);
}

/** A metric spoon holds 5 or 15 ml; the library knows the American ones. */
const SPOONS = { tsp: ["5 ml", "1 teaspoon"], tbsp: ["15 ml", "1 tablespoon"] };
const LIQUIDS = { pint: "pint", quart: "quart", gallon: "gallon", "fl oz": "floz" };

function amount(count, word, { american, fluid, can }) {
  if (word === "can") return Qty(count * can, "liter");
  if (SPOONS[word]) return Qty(SPOONS[word][american ? 1 : 0]).mul(count);
  if (word === "oz") return fluid ? amount(count, "fl oz", { american }) : Qty(count, "oz");
  if (word === "quart" && !american) return Qty(2 * count, "pint-imp");
  if (LIQUIDS[word]) return Qty(count, american ? LIQUIDS[word] : `${LIQUIDS[word]}-imp`);
  return Qty(count, word === "litre" ? "liter" : word);
}

function compareDose(comparison, dose) {
  comparison.next();
  const feed = amount(dose.amount, dose.feed, dose);
  const water = amount(dose.water_amount, dose.water, dose);
  const isWeight = feed.kind() === "mass";
  assert.equal(dose.weighed, isWeight, `${dose.feed} (seed ${given.seed})`);
  const perLitre = feed.to(isWeight ? "g" : "ml").scalar / water.to("liter").scalar;
  comparison.agree(`${dose.feed} per ${dose.water}`, dose.per_litre, perLitre, SHARE);
}

/** The worst of all words in one. */
function report(comparison) {
  const worst = [...comparison.worst.values()].reduce((worst, one) => (one.share > worst.share ? one : worst));
  const kinds = comparison.worst.size;
  comparison.worst = new Map([[`any of ${kinds} pairs of units`, worst]]);
  comparison.report();
}

test("what is typed in any unit is held as a library of units has it", () => {
  const comparison = new Comparison("typed numbers", "js-quantities");
  for (const field of given.fields) compareField(comparison, field);
  assert.equal(comparison.count, 252);
  for (const unit of Object.keys(UNITS)) {
    assert.ok(given.fields.some((field) => field.unit === unit), `no case in ${unit} (seed ${given.seed})`);
  }
  report(comparison);
});

test("a dose in the words of a label is as much as a library of units makes of it", () => {
  const comparison = new Comparison("doses", "js-quantities");
  for (const dose of given.doses) compareDose(comparison, dose);
  assert.equal(comparison.count, 200);
  report(comparison);
});

test("an American pint for an imperial one is noticed", () => {
  const field = { field: "given", unit: "pints", typed: 2, held: 0.946352946, back: 2 };
  assert.throws(() => compareField(new Comparison("typed numbers", "js-quantities"), field));
});
