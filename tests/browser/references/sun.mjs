// The sun by an ephemeris. FAO-56 follows it with one sine a year, so the two part by what is allowed here and no more.
import assert from "node:assert/strict";
import { test } from "node:test";

import { Body, Equator, Horizon, Observer, SearchAltitude } from "astronomy-engine";

import { Comparison, given } from "../support/cases.mjs";

/** Solar constant of FAO-56, MJ/m²/min: an ephemeris knows none. */
const SOLAR_CONSTANT = 0.082;
/** Minutes from one sample of the sun's height to the next. */
const STEP = 5;

/** Noon at the meridian of Greenwich. */
function noon(day) {
  return new Date(`${day}T12:00:00Z`);
}

function compare(comparison, { day, latitude, distance, declination, radiation, daylight }) {
  comparison.next();
  const observer = new Observer(latitude, 0, 0);
  const sun = Equator(Body.Sun, noon(day), observer, true, true);
  comparison.agree("declination, radians", declination, (sun.dec * Math.PI) / 180, 0, 0.02);
  comparison.agree("distance", distance, sun.dist ** -2, 0.003);
  // From midnight to midnight of the place: the sun's own centre, without the bending of the air.
  const midnight = noon(day).getTime() - 12 * 3600e3;
  let sum = 0;
  for (let minute = STEP / 2; minute < 1440; minute += STEP) {
    const time = new Date(midnight + minute * 60e3);
    const place = Equator(Body.Sun, time, observer, true, true);
    const { altitude } = Horizon(time, observer, place.ra, place.dec);
    sum += STEP * Math.max(0, Math.sin((altitude * Math.PI) / 180)) * SOLAR_CONSTANT * place.dist ** -2;
  }
  comparison.agree("radiation, MJ/m²", radiation, sum, 0.025, 0.6);
  const rise = SearchAltitude(Body.Sun, observer, +1, new Date(midnight), 1, 0);
  const set = SearchAltitude(Body.Sun, observer, -1, noon(day), 1, 0);
  comparison.agree("daylight, h", daylight, (set.date - rise.date) / 3600e3, 0, 0.3);
}

test("the sun stands where an ephemeris has it", () => {
  const comparison = new Comparison("days of sun", "astronomy-engine");
  for (const sun of given.sun) compare(comparison, sun);
  comparison.report();
  assert.equal(comparison.count, 100);
});

test("a sun that is a degree and a half off is noticed", () => {
  const sun = given.sun[0];
  assert.throws(() => compare(new Comparison("days of sun", "astronomy-engine"), { ...sun, declination: sun.declination + 0.045 }));
});
