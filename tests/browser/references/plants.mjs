// The whole sum for a plant, written again from the stated model with units that the library checks: see the formulas in
// the working of a dose. A recomputation, from the latitude to the litres in the can.
import assert from "node:assert/strict";
import { test } from "node:test";

import { all, create } from "mathjs";

import { Comparison, given } from "../support/cases.mjs";

const math = create(all);

const SKY = `
  phi = latitude * pi / 180
  delta = 0.409 * sin(2 * pi * J / 365 - 1.39)
  omega = acos(-tan(phi) * tan(delta))
  dr = 1 + 0.033 * cos(2 * pi * J / 365)
  Ra = 24 * 60 / pi * 1 minute / day * 0.0820 MJ / m^2 / minute * dr * (omega * sin(phi) * sin(delta) + cos(phi) * cos(delta) * sin(omega))
  Rs = clearness * Ra
  gamma = 0.665e-3 / K * 101.3 kPa * ((293 - 0.0065 * elevation) / 293)^5.26
  vapour(t) = 0.6108 kPa * exp(17.27 * t / (t + 237.3))
  slope(t) = 4098 K * vapour(t) / ((t + 237.3) K)^2
  T = (warmest + coolest) / 2
  es = (vapour(warmest) + vapour(coolest)) / 2
  lambda = 2.45 MJ / kg
  density = 1 kg / liter
  area = ground * 1 m^2
  leaves = 1.2 m^2 * leafiness * (min(height, 1.8) / 1.8)^1.3
  LAI = leaves / area
  f = 1 - exp(-0.7 * LAI)
`;

const UNDER_COVER = `
  Ri = transmission * Rs
  inside = T + 0.12 * Ri / (1 MJ / m^2 / day)
  reference = 0.65 * slope(inside) / (slope(inside) + gamma) * Ri / lambda / density
  by_light = 1.30 * f * reference * area
`;

/** With the humidity known: term a of the radiation and term b of the dryness of the air at both extremes, warmed alike. */
const WITH_HUMIDITY = `
  VPD = (1 - humidity / 100) * (vapour(warmest + inside - T) + vapour(coolest + inside - T)) / 2
  transpiration = area * (0.364 * f * Ri / lambda / density + 0.660 liter / m^2 / kPa / day * LAI * VPD)
`;

const OUTDOORS = `
  ea = humidity == null ? vapour(coolest) : humidity / 100 * es
  Rso = (0.75 + 2e-5 * elevation) * Ra
  kelvin(t) = (t + 273.16) * 1 K
  cloud = max(1.35 * min(Rs / Rso, 1) - 0.35, 0.05)
  Rnl = 4.903e-9 MJ / K^4 / m^2 / day * (kelvin(warmest)^4 + kelvin(coolest)^4) / 2 * (0.34 - 0.14 * sqrt(ea / (1 kPa))) * cloud
  Rn = 0.77 * Rs - Rnl
  depth = 0.408 liter / m^2 / (MJ / m^2)
  D = slope(T)
  deficit = es - ea
  of_the_air = (depth * D * Rn + gamma * 900 liter K s / (m^2 day kPa m) / ((T + 273) K) * wind * 1 m / s * deficit) / (D + gamma * (1 + 0.34 * wind))
  reference = max(of_the_air, 0 liter / m^2 / day)
  driest = min(max(100 * ea / vapour(warmest), 20), 80)
  coefficient = exposure * (1.15 + (0.04 * (wind - 2) - 0.004 * (driest - 45)) * (min(height, 1.8) / 3)^0.3)
  transpiration = coefficient * f * reference * area
`;

const LITRES = `
  evaporation = exp(-0.7 * LAI) * reference * wet * 1 m^2
  growth = (0.94 * 0.012 * min(trusses, 5) + 0.018 * min(1, height / 0.5)) * 1 liter / day
  total = transpiration + evaporation + growth
  poured = total / (1 - (drains ? 0.10 : 0))
`;

const compiled = (text) =>
  math.compile(
    text
      .trim()
      .split("\n")
      .map((line) => line.trim())
      .join("\n"),
  );
const [sky, underCover, withHumidity, outdoors, litres] = [SKY, UNDER_COVER, WITH_HUMIDITY, OUTDOORS, LITRES].map(compiled);

const SHARE = 1e-9;

function compare(comparison, { found, number, easy, ...inputs }) {
  comparison.next();
  const scope = { ...inputs, J: number };
  sky.evaluate(scope);
  if (inputs.exposure !== null) {
    outdoors.evaluate(scope);
  } else {
    underCover.evaluate(scope);
    if (inputs.humidity === null) {
      scope.transpiration = scope.by_light;
    } else {
      withHumidity.evaluate(scope);
    }
  }
  litres.evaluate(scope);
  const where = inputs.exposure === null ? (inputs.humidity === null ? "under cover" : "under cover, humidity known") : "outdoors";
  for (const name of ["transpiration", "evaporation", "growth", "total"]) {
    comparison.agree(`${name} ${where}, l/day`, found[name], math.number(scope[name], "liter / day"), SHARE, SHARE);
  }
  const total = math.number(scope.total, "liter / day");
  // A dose is spread over waterings when a day takes much of the store; these stores are large.
  if (total < easy / 2) comparison.agree(`poured ${where}, l`, found.poured, math.number(scope.poured, "liter / day"), SHARE, SHARE);
}

test("the sum for a plant gives the same when it is written again with its units", () => {
  const comparison = new Comparison("plants", "mathjs");
  for (const plant of given.plants) compare(comparison, plant);
  assert.equal(comparison.count, 100);
  comparison.report();
});

test("one per cent more leaves are noticed", () => {
  const plant = given.plants[0];
  const wrong = { ...plant, leafiness: plant.leafiness * 1.01 };
  assert.throws(() => compare(new Comparison("plants", "mathjs"), wrong));
});
