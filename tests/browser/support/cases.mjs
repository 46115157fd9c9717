// Cases that the program worked out, to be worked out again; and how near two numbers are.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";

import { required } from "./required.mjs";

export const given = JSON.parse(readFileSync(required("FIRST_TRUSS_REFERENCE_CASES"), "utf8"));

/** Compares numbers and remembers the worst difference of each kind. */
export class Comparison {
  constructor(title, library) {
    this.title = title;
    this.library = library;
    this.worst = new Map();
    this.count = 0;
  }

  /** Another case begins. */
  next() {
    this.count += 1;
  }

  /** Fails unless the program's number lies within a share of the library's, and a little more where that is near nought. */
  agree(what, found, expected, share, least = 0) {
    assert.ok(Number.isFinite(found) && Number.isFinite(expected), this.#where(`${what}: ${found} and ${expected}`));
    const difference = Math.abs(found - expected);
    const allowed = share * Math.abs(expected) + least;
    const used = allowed > 0 ? difference / allowed : difference;
    const before = this.worst.get(what);
    if (!before || used > before.used) this.worst.set(what, { used, difference, share: difference / Math.abs(expected) });
    assert.ok(difference <= allowed, this.#where(`${what}: the program has ${found}, ${this.library} ${expected}, allowed ${allowed}`));
  }

  /** One line: how many, by what, and how far off at the worst. */
  report() {
    const parts = [...this.worst].map(([what, { difference, share }]) => `${what} ${short(share)} (${short(difference)})`);
    console.log(`worked out again: ${this.count} ${this.title} by ${this.library}; worst share (difference): ${parts.join(", ")}`);
  }

  #where(message) {
    return `${message} (case ${this.count} of ${this.title}, seed ${given.seed})`;
  }
}

function short(number) {
  return Number.isFinite(number) ? number.toPrecision(2) : "–";
}
