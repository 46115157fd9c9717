// Moist air by the formulas of ASHRAE, which are others than those of FAO-56: what is allowed is what the two part by.
import assert from "node:assert/strict";
import { test } from "node:test";

import psychrolib from "psychrolib";

import { Comparison, given } from "../support/cases.mjs";

psychrolib.SetUnitSystem(psychrolib.SI);

function compare(comparison, air) {
  comparison.next();
  const { celsius, elevation, wet, humidity } = air;
  const kilopascals = (pascals) => pascals / 1000;
  const saturation = (at) => kilopascals(psychrolib.GetSatVapPres(at));
  comparison.agree("saturation, kPa", air.saturation, saturation(celsius), 0.002);
  // The slope from its own definition.
  const nearby = 0.01;
  comparison.agree("slope, kPa/K", air.slope, (saturation(celsius + nearby) - saturation(celsius - nearby)) / (2 * nearby), 0.004);
  comparison.agree("pressure, kPa", air.pressure, kilopascals(psychrolib.GetStandardAtmPressure(elevation)), 0.005);
  const pascals = air.pressure * 1000;
  const ratio = psychrolib.GetHumRatioFromRelHum(celsius, humidity / 100, pascals);
  comparison.agree("from humidity, kPa", air.from_humidity, kilopascals(psychrolib.GetVapPresFromHumRatio(ratio, pascals)), 0.005);
  if (wet >= 1) {
    comparison.agree("from dew point, kPa", air.from_dew_point, saturation(wet), 0.002);
    const wetRatio = psychrolib.GetHumRatioFromTWetBulb(celsius, wet, pascals);
    comparison.agree("from wet bulb, kPa", air.from_wet_bulb, kilopascals(psychrolib.GetVapPresFromHumRatio(wetRatio, pascals)), 0.02, 0.02);
  }
}

test("moist air is what ASHRAE's formulas make of it", () => {
  const comparison = new Comparison("airs", "psychrolib");
  for (const air of given.air) compare(comparison, air);
  comparison.report();
  assert.equal(comparison.count, 100);
});

test("one per cent more vapour is noticed", () => {
  const air = given.air[0];
  assert.throws(() => compare(new Comparison("airs", "psychrolib"), { ...air, saturation: air.saturation * 1.01 }));
});
