// Plants that are potted on or moved: whether they stood so all along is asked, and told to whoever waters.
import assert from "node:assert/strict";

import { HandOver } from "../pages/hand-over.mjs";
import { firstVersion } from "../support/builds.mjs";
import { hostedJourney } from "../support/hosted.mjs";
import { cleanJourney } from "../support/journey.mjs";
import { comeBack, open, profile, reload } from "../support/visit.mjs";

const july = (day) => `2026-07-${String(day).padStart(2, "0")}T07:40:00`;

/** Plants in pots of five litres, watered on four bright mornings, and the morning of the fifth. */
async function inSmallPots({ page, water }) {
  await water.choose("container", "pot");
  await water.fill("pot-size", "5");
  for (const day of [9, 10, 11, 12, 13]) {
    await comeBack(page, july(day));
    await water.press("sky", "bright");
    if (day < 13) await water.watered().click();
  }
}

const state = async (water) => [await water.dose(), await water.low(), await water.high(), await water.days()];

cleanJourney("potted on this morning, the days before stay as they were counted", { day: july(9) }, async (visit) => {
  const { page, water } = visit;
  const asked = page.locator("input[name=stood-so]");
  assert.equal(await asked.count(), 0, "on a first morning there is nothing to ask");
  await inSmallPots(visit);
  assert.equal(await asked.count(), 0, "nor while nothing was changed");
  const before = await state(water);
  await water.fill("pot-size", "25");
  assert.equal(await water.pressed("stood-so"), "since-today", "so much more compost is taken for potting on");
  const taken = await state(water);
  await water.press("stood-so", "all-along");
  const allAlong = await state(water);
  await reload(page);
  assert.equal(await water.pressed("stood-so"), "all-along", "it is asked as long as the day lasts");
  assert.notEqual(allAlong[0], before[0]);
  await water.press("stood-so", "since-today");
  const moved = await state(water);
  assert.deepEqual(moved, taken);
  const used = ([, , , days]) => days.slice(1).map(([day, given, used]) => [day, given, used]);
  assert.deepEqual(used(moved), used(before), "what they got and used is what it was");
  const off = ([dose]) => Math.abs(dose - before[0]);
  assert.ok(off(moved) < off(allAlong), `${[before, allAlong, moved].map(([dose]) => dose)}`);
  await reload(page);
  assert.deepEqual(await state(water), moved, "and is kept");
  assert.equal(await water.pressed("stood-so"), "since-today");
  await water.press("stood-so", "all-along");
  assert.deepEqual(await state(water), allAlong);
  await water.press("stood-so", "since-today");
  await water.watered().click();

  await comeBack(page, july(14));
  assert.equal(await asked.count(), 0, "on another morning it is settled");
  await water.openDay(1);
  assert.match(await page.locator("#change-day").innerText(), /potted on, or moved/);
  const settled = await water.dose();
  await page.locator("#taken-out button").click();
  assert.notEqual(await water.dose(), settled, "taken out with all that is noted of the day");
  assert.doesNotMatch(await page.locator("#change-day").innerText(), /potted on, or moved/);
  await page.locator("#taken-out button").click();
  assert.equal(await water.dose(), settled);
});

cleanJourney("put back as it was, nothing is asked any more, and out of doors it is asked again", { day: july(9) }, async (visit) => {
  const { page, water } = visit;
  const asked = page.locator("input[name=stood-so]");
  await inSmallPots(visit);
  await water.fill("pot-size", "2 or 3");
  assert.equal(await asked.count(), 0, "what is no size changes none");
  await water.fill("pot-size", "7");
  assert.equal(await asked.count(), 2);
  assert.equal(await water.pressed("stood-so"), "all-along", "a little more is a size that was told late");
  await water.fill("pot-size", "5");
  assert.equal(await asked.count(), 0);
  await water.press("place", "outdoors");
  assert.equal(await asked.count(), 2);
});

cleanJourney("what one tab was told of a move stays so in the other", { day: july(9) }, async (visit) => {
  const { page, water } = visit;
  await inSmallPots(visit);
  const other = await open(page.context());
  await water.fill("pot-size", "25");
  await water.press("stood-so", "all-along");
  const told = await water.dose();
  await other.page.bringToFront();
  await other.page.waitForFunction(() => document.querySelector("input[name=stood-so]"));
  await other.water.press("sky", "clear");
  assert.equal(await other.water.pressed("stood-so"), "all-along");
  await other.water.press("sky", "bright");
  assert.equal(await other.water.dose(), told);
  assert.equal(await other.water.pressed("stood-so"), "all-along");
  await other.page.close();
});

const first = async () => ({ "/": await firstVersion() });

hostedJourney("whoever waters is told of a move as well", first, async ({ host, context, visit }) => {
  const own = await visit("#water");
  await inSmallPots(own);
  await own.water.fill("pot-size", "25");
  await own.water.press("place", "outdoors");
  await own.water.press("stood-so", "since-today");
  const owner = new HandOver(own.page);
  const doses = async (water) => [await water.dose(), await water.low(), await water.high()];
  const here = await doses(owner);
  const link = await owner.link("Plot 14");
  const other = await profile(context.browser(), { day: july(13) });
  try {
    const visitor = await open(other, `#${link.split("#")[1]}`, host.address("/"));
    assert.deepEqual(await doses(new HandOver(visitor.page)), here, "to the last figure");
  } finally {
    await other.close();
  }
});
