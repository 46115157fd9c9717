// FAO-56 written out again from its text, with units that the library checks: a term of the wrong kind stops it.
//
// No library of this calculation is older than the paper itself, so this is a recomputation. The outside checks of its pieces are
// sun.mjs and air.mjs; its printed examples stand in tests/published.
import assert from "node:assert/strict";
import { test } from "node:test";

import { all, create } from "mathjs";

import { Comparison, given } from "../support/cases.mjs";

const math = create(all);

/** Each line is an equation of FAO-56 by its number; degrees and kelvins of difference are K. */
const EQUATIONS = `
  z = elevation * 1 m
  P = 101.3 kPa * ((293 - 0.0065 * elevation) / 293)^5.26                                   # 7
  gamma = 0.665e-3 / K * P                                                                 # 8
  vapour(t) = 0.6108 kPa * exp(17.27 * t / (t + 237.3))                                    # 11
  T = (warmest + coolest) / 2                                                              # 9
  es = (vapour(warmest) + vapour(coolest)) / 2                                             # 12
  Delta = 4098 K * vapour(T) / ((T + 237.3) K)^2                                           # 13
  ea = humidity / 100 * es                                                                 # 19
  dr = 1 + 0.033 * cos(2 * pi * J / 365)                                                   # 23
  delta = 0.409 * sin(2 * pi * J / 365 - 1.39)                                             # 24
  phi = latitude * pi / 180                                                                # 22
  omega = acos(-tan(phi) * tan(delta))                                                     # 25
  Gsc = 0.0820 MJ / m^2 / minute
  Ra = 24 * 60 / pi * 1 minute / day * Gsc * dr * (omega * sin(phi) * sin(delta) + cos(phi) * cos(delta) * sin(omega))  # 21
  N = 24 / pi * omega * 1 hour                                                             # 34
  Rs = (0.25 + 0.50 * bright) * Ra                                                         # 35
  Rso = (0.75 + 2e-5 / m * z) * Ra                                                         # 37
  Rns = (1 - 0.23) * Rs                                                                    # 38
  sigma = 4.903e-9 MJ / K^4 / m^2 / day
  kelvin(t) = (t + 273.16) * 1 K
  Rnl = sigma * (kelvin(warmest)^4 + kelvin(coolest)^4) / 2 * (0.34 - 0.14 * sqrt(ea / (1 kPa))) * (1.35 * Rs / Rso - 0.35)  # 39
  Rn = Rns - Rnl                                                                           # 40
  u2 = wind * 1 m / s * 4.87 / log(67.8 * height - 5.42)                                   # 47
  depth = 0.408 mm / (MJ / m^2)                                                            # 20
  numerator = depth * Delta * Rn + gamma * 900 mm K s / (day kPa m) / ((T + 273) K) * u2 * (es - ea)
  ET0 = numerator / (Delta + gamma * (1 + 0.34 s / m * u2))                                # 6
  hargreaves = 0.0023 / K^1.5 * ((T + 17.8) K) * sqrt((warmest - coolest) K) * depth * Ra  # 52
  lambda = 2.45 MJ / kg
  water = 1 kg / m^2 / mm
  makkink = 0.65 * Delta / (Delta + gamma) * Rs / lambda / water
  priestley_taylor = 1.26 * Delta / (Delta + gamma) * Rn / lambda / water
  dry = humidity < 50 ? 1 + (50 - humidity) / 70 : 1
  turc = T > 0 ? 0.013 * T / (T + 15) * (23.88 * Rs / (1 MJ / m^2 / day) + 50) * dry * 1 mm / day : 0 mm / day
  TAW = 160 mm
  p = 0.4
  deficit = (50 + 100 * bright) mm
  ks = deficit > p * TAW ? (TAW - deficit) / ((1 - p) * TAW) : 1                           # 84
  driest = min(max(humidity, 20), 80)
  kc = (0.04 s / m * (u2 - 2 m / s) - 0.004 * (driest - 45)) * (height / 5 / 3)^0.3        # 62
`;

const program = math.compile(
  EQUATIONS.trim()
    .split("\n")
    .map((line) => line.split("#")[0].trim())
    .join("\n"),
);

/** What each result must be told in: the library refuses another kind of quantity. */
const UNITS = {
  Ra: "MJ / m^2 / day",
  N: "hour",
  Rs: "MJ / m^2 / day",
  Rso: "MJ / m^2 / day",
  es: "kPa",
  ea: "kPa",
  Rns: "MJ / m^2 / day",
  Rnl: "MJ / m^2 / day",
  Rn: "MJ / m^2 / day",
  u2: "m / s",
  P: "kPa",
  ET0: "mm / day",
  hargreaves: "mm / day",
  makkink: "mm / day",
  priestley_taylor: "mm / day",
  turc: "mm / day",
  ks: null,
  kc: null,
};

/** Both reckon in doubles; the order of the steps differs. */
const SHARE = 1e-9;

function compare(comparison, { found, number, ...inputs }) {
  comparison.next();
  const scope = { ...inputs, J: number };
  program.evaluate(scope);
  for (const [name, unit] of Object.entries(UNITS)) {
    const plain = unit ? math.number(scope[name], unit) : math.number(scope[name]);
    comparison.agree(`${name}${unit ? `, ${unit.replaceAll(" ", "")}` : ""}`, found[name], plain, SHARE, SHARE);
  }
}

test("the equations of FAO-56 give the same when they are written again with their units", () => {
  const comparison = new Comparison("days of reference use", "mathjs");
  for (const day of given.evaporation) compare(comparison, day);
  assert.equal(comparison.count, 100);
  comparison.report();
});

test("a coefficient that is one in a thousand off is noticed, and so is a unit of another kind", () => {
  const day = given.evaporation[0];
  const wrong = { ...day, found: { ...day.found, ET0: day.found.ET0 * 1.001 } };
  assert.throws(() => compare(new Comparison("days of reference use", "mathjs"), wrong));
  assert.throws(() => math.evaluate("1 kPa + 1 MJ / m^2"));
});
