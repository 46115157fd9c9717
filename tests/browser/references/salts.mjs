// What salts and oxides weigh and hold, by a library of molecules from how they are built.
import assert from "node:assert/strict";
import { test } from "node:test";

import * as chemistry from "openchemlib";

import { Comparison, given } from "../support/cases.mjs";

/** Two lists of atomic weights part by no more: sulphur is 32.06 here and 32.065 there. */
const SHARE = 2e-4;

const { Molecule } = chemistry.default ?? chemistry;

function weight(smiles) {
  return Molecule.fromSmiles(smiles).getMolecularFormula().relativeWeight;
}

/** Atoms of an element, from the formula that the library makes: "H8N2O4S". */
function atoms(smiles, element) {
  const { formula } = Molecule.fromSmiles(smiles).getMolecularFormula();
  const found = formula.match(new RegExp(`${element}(?![a-z])(\\d*)`));
  return found ? Number(found[1] || 1) : 0;
}

function share(smiles, element) {
  return (atoms(smiles, element) * weight(`[${element}]`)) / weight(smiles);
}

function compareSalt(comparison, { name, smiles, mass, holds }) {
  comparison.next();
  comparison.agree(`${name}, g/mol`, mass, weight(smiles), SHARE);
  for (const [element, percent] of Object.entries(holds)) {
    comparison.agree(`${element} in ${name}, %`, percent, 100 * share(smiles, element), SHARE, 1e-9);
  }
}

function compareOxide(comparison, { oxide, element, made, times, share: found }) {
  comparison.next();
  const expected = made ? (times * weight(made)) / weight(oxide) : share(oxide, element);
  comparison.agree(`${element ?? "bicarbonate"} in ${oxide}`, found, expected, SHARE);
}

test("every salt and oxide weighs and holds what a library of molecules says", () => {
  const comparison = new Comparison("salts and oxides", "openchemlib");
  for (const salt of given.salts) compareSalt(comparison, salt);
  for (const oxide of given.oxides) compareOxide(comparison, oxide);
  assert.equal(comparison.count, 18);
  const worst = [...comparison.worst.values()].reduce((worst, one) => (one.share > worst.share ? one : worst));
  comparison.worst = new Map([["any", worst]]);
  comparison.report();
});

test("a water of crystals too few is noticed", () => {
  const salt = given.salts.find(({ name }) => name === "EpsomSalts");
  const dried = { ...salt, smiles: salt.smiles.replace(/\.O$/, "") };
  assert.throws(() => compareSalt(new Comparison("salts", "openchemlib"), dried));
});
