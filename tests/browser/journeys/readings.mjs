// What else a grower can tell of a morning: days that were missed, a weighed pot, the drip test, plants that wilt.
import assert from "node:assert/strict";

import { cleanJourney } from "../support/journey.mjs";
import { comeBack, reload } from "../support/visit.mjs";

const july = (day) => `2026-07-${String(day).padStart(2, "0")}T07:40:00`;

/** A clear morning that is noted as watered. */
async function watered({ page, water }, day) {
  await comeBack(page, july(day));
  await water.press("sky", "clear");
  await water.watered().click();
}

cleanJourney("missed days are told in two touches each, and change this morning's dose", { day: july(1) }, async (visit) => {
  const { page, water } = visit;
  await watered(visit, 1);
  await comeBack(page, july(2));
  assert.equal(await page.locator("#missed").count(), 0, "nothing was missed");
  await watered(visit, 2);
  await comeBack(page, july(5));
  await water.press("sky", "clear");
  assert.match(await page.locator("#missed summary").innerText(), /of 2 days[^]*assumed: not watered/);
  const unwatered = await water.dose();
  await water.unfold("missed");
  assert.equal(await page.locator('#missed [name^="missed-sky"]').count(), 5, "yesterday's sky stands above already");
  await water.press("missed-sky-2", "dark");
  const dark = await water.dose();
  assert.ok(dark < unwatered, `a dark day takes less: ${dark} of ${unwatered}`);
  await water.press("missed-water-2", "as-used");
  await water.press("missed-water-1", "as-used");
  assert.ok((await water.dose()) < dark);
  assert.match(await page.locator("#missed summary").innerText(), /told by now/);
  const told = await water.dose();
  await water.press("missed-water-1", "nothing");
  assert.ok((await water.dose()) > told, "put right");
  await water.press("missed-water-1", "as-used");
  await reload(page);
  assert.equal(await water.dose(), told);
  assert.equal(await page.locator("#missed").count(), 0, "all are told");
});

cleanJourney("a weighed pot and the drip test overrule the sum", { day: july(9) }, async ({ page, water }) => {
  await water.choose("container", "pot");
  await water.press("sky", "clear");
  const sum = await water.dose();
  await water.unfold("measured");
  await water.fill("pot-drained", "22");
  assert.equal(await water.dose(), sum, "one weight says nothing");
  await water.typeSlowly("pot-now", "21,8");
  const weighed = await water.dose();
  assert.ok(weighed < sum, `hardly lighter: ${weighed} of ${sum}`);
  assert.match(await page.locator("#measured summary").innerText(), /lighter by/);
  await water.fill("pot-now", "heavy");
  assert.equal(await water.dose(), weighed, "text that is no weight changes nothing");
  assert.deepEqual(await water.wrong(), ["pot-now"]);
  await water.fill("pot-now", "");
  await water.fill("drip", "3");
  assert.ok((await water.dose()) > weighed);
  await comeBack(page, july(10));
  await water.unfold("measured");
  assert.equal(await water.field("pot-drained").inputValue(), "22", "the drained weight holds on");
  assert.equal(await water.field("drip").inputValue(), "", "the test was yesterday's");
});

cleanJourney("what to do about wilting plants goes by the compost", { day: july(9) }, async ({ page, water }) => {
  await water.unfold("wilting");
  assert.equal(await page.locator("#answer-wilting").count(), 0);
  const advice = [];
  for (const when of ["noon", "one"]) {
    await water.press("wilting", when);
    assert.equal(await page.locator("#answer-wilting").getAttribute("value"), "feel-first", "nobody has felt the compost");
  }
  for (const [feel, when] of [["dry", "all-day"], ["sodden", "all-day"], ["moist", "noon"], ["moist", "morning"], ["moist", "one"], ["moist", "all-day"]]) {
    await water.press("feel", feel);
    await water.press("wilting", when);
    advice.push(await page.locator("#answer-wilting").getAttribute("value"));
  }
  assert.deepEqual(advice, ["water-in-parts", "drain-and-shade", "normal-at-noon", "roots-or-stem", "that-plant", "feel-deeper"]);
  await comeBack(page, july(10));
  await water.unfold("wilting");
  assert.equal(await water.pressed("wilting"), null, "a new morning");
});

cleanJourney("the last truss likely to ripen has its day, and stopped plants grow no taller", { day: july(9) }, async ({ page, water }) => {
  await water.unfold("season-end");
  const stop = await page.locator("#answer-stop-date").getAttribute("datetime");
  assert.ok(stop > "2026-07-20" && stop < "2026-09-01", stop);
  await water.fill("height", "4");
  await water.fill("stopped-at", "4.5", "more-plants");
  await water.leave();
  await comeBack(page, july(29));
  assert.equal(await water.field("height").inputValue(), "4.5", "estimated, but no taller");
});
