// The days that are noted: three taps, the way back, and what the next mornings know of them.
import assert from "node:assert/strict";

import { cleanJourney } from "../support/journey.mjs";
import { comeBack, reload, setDay } from "../support/visit.mjs";

const july = (day) => `2026-07-${String(day).padStart(2, "0")}T07:40:00`;

cleanJourney("three taps note the morning, and Undo takes it back", { day: july(9) }, async ({ page, water }) => {
  await water.press("sky", "clear");
  await water.press("feel", "moist");
  const total = await water.total();
  await water.watered().press("Enter");
  assert.match(await water.noted(), /^Watered at \d+\.40\n/);
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  await reload(page);
  assert.match(await water.noted(), /in the notebook/);
  assert.equal(await water.total(), total, "what was noted changes nothing of this morning");
  await water.watered().press("Enter");
  assert.equal(await water.noted(), "Watered");
  await page.waitForFunction(() => document.activeElement.textContent === "Watered");
  await reload(page);
  assert.equal(await water.noted(), "Watered", "what was taken back stays so");
});

cleanJourney("the next mornings know what was poured, and a day can be put right", { day: july(9) }, async ({ page, water }) => {
  const doses = [];
  for (const [day, poured] of [[9, true], [10, false], [11, true]]) {
    await comeBack(page, july(day));
    await water.press("sky", "bright");
    doses.push(await water.dose());
    if (poured) await water.watered().click();
  }
  await comeBack(page, july(12));
  await water.press("sky", "bright");
  // The tenth was left out: the dose on the eleventh made up for it.
  assert.ok(doses[2] > doses[1], `${doses}`);
  assert.equal(await page.locator("#days figure svg").count(), 1, "the days are drawn");
  const rows = await water.days();
  assert.deepEqual(rows.map(([day]) => day), ["12 July", "11 July", "10 July", "9 July", "8 July"]);
  assert.match(rows[2][1], /assumed/);
  const before = await water.dose();
  await water.openDay(1);
  await water.typeSlowly("given", "0");
  assert.ok((await water.dose()) > before, "less yesterday, more today");
  await water.leave();
  assert.equal((await water.days())[1][1], "none");
  await reload(page);
  assert.ok((await water.dose()) > before);
});

cleanJourney("a page that is looked at all night turns to the new morning with the first tap", { day: july(9) }, async ({ page, water }) => {
  await water.press("sky", "clear");
  await water.watered().click();
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  await setDay(page.context(), july(10));
  await water.press("sky", "dull");
  assert.equal(await water.noted(), "Watered");
  await setDay(page.context(), july(11));
  await water.watered().click();
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  await reload(page);
  const [today, yesterday] = await water.days();
  assert.deepEqual([today[0], yesterday[0]], ["11 July", "10 July"]);
  assert.doesNotMatch(today[1], /assumed|none/);
  assert.match(yesterday[1], /assumed/);
  await setDay(page.context(), july(12));
  await water.press("sky", "dull");
  await water.watered().click();
  await reload(page);
  assert.equal(await water.pressed("sky"), "dull");
  const rows = await water.days();
  assert.deepEqual(rows.slice(0, 4).map(([day]) => day), ["12 July", "11 July", "10 July", "9 July"]);
  assert.doesNotMatch(rows[1][1], /assumed|none/);
});

/** Three mornings, on the second of which each plant got so many litres' worth of the jug's units. */
async function threeMornings({ page, water }, second) {
  for (const day of [9, 10, 11]) {
    await comeBack(page, july(day));
    await water.press("sky", "bright");
    if (day === 11) continue;
    await water.watered().click();
    if (day === 10) {
      await water.openDay(0);
      await water.typeSlowly("given", second);
      await water.leave();
    }
  }
}

const state = async (water) => [await water.dose(), await water.low(), await water.high(), await water.days()];

cleanJourney("a day that is put right is as if it had been right at first", { day: july(9) }, async (visit) => {
  const { page, water } = visit;
  await threeMornings(visit, "3");
  const right = await state(water);
  await page.evaluate(() => localStorage.clear());
  await threeMornings(visit, "0.5");
  assert.notDeepEqual(await state(water), right);
  await water.openDay(1);
  await water.typeSlowly("given", "3");
  await water.leave();
  assert.deepEqual(await state(water), right);
  await reload(page);
  assert.deepEqual(await state(water), right, "and is kept");
});

cleanJourney("what the plants taught is told, and put back", { day: july(1) }, async ({ page, water }) => {
  for (let day = 1; day <= 9; day += 1) {
    await comeBack(page, july(day));
    await water.press("sky", "clear");
    await water.press("feel", "dry");
    await water.watered().click();
  }
  await comeBack(page, july(10));
  const learnt = page.locator("#learnt");
  assert.match(await learnt.innerText(), /^These plants drink about \d+ % more than the sum: \d+ readings\. Forget it$/);
  const dose = await water.dose();
  await learnt.getByRole("button").click();
  await learnt.waitFor({ state: "detached" });
  await page.waitForFunction(() => document.activeElement.closest("#forgotten"));
  await page.keyboard.press("Enter");
  await learnt.waitFor();
  assert.equal(await water.dose(), dose, "Undo brings it back");
  await page.waitForFunction(() => document.activeElement.closest("#learnt"));
  await page.keyboard.press("Enter");
  await learnt.waitFor({ state: "detached" });
  await reload(page);
  assert.equal(await learnt.count(), 0, "it stays forgotten");
});

cleanJourney("text that cannot be read waits with its day, and what was taken out comes back", { day: july(9) }, async (visit) => {
  const { page, water } = visit;
  await threeMornings(visit, "3");
  const dose = await water.dose();
  await water.openDay(1);
  await water.typeSlowly("given", "3 or 4");
  assert.deepEqual(await water.wrong(), ["given"]);
  await water.choose("day", "2");
  assert.deepEqual(await water.wrong(), []);
  await water.choose("day", "1");
  assert.equal(await water.field("given").inputValue(), "3 or 4");
  assert.equal(await water.dose(), dose, "what was noted counts as long as the text is none");
  await water.typeSlowly("given", "3");
  await page.locator("#taken-out button").press("Enter");
  assert.notEqual(await water.dose(), dose);
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  await page.keyboard.press("Enter");
  assert.equal(await water.dose(), dose);
  assert.equal(await water.field("given").inputValue(), "3");
  await page.waitForFunction(() => document.activeElement.textContent.startsWith("Take out"));
});

cleanJourney("all missed days are told at once", { day: "2026-07-09T09:05:00" }, async ({ page, water }) => {
  await water.press("sky", "bright");
  await water.watered().click();
  await comeBack(page, "2026-07-14T09:05:00");
  const dry = await water.dose();
  await water.unfold("missed");
  const all = page.getByRole("button", { name: "They got their water on all of these" });
  // One is told by itself, and stays so.
  await water.press("missed-water-2", "nothing");
  await all.press("Enter");
  assert.equal(await all.isHidden(), true);
  assert.equal(await water.pressed("missed-water-1"), "as-used");
  assert.equal(await water.pressed("missed-water-2"), "nothing");
  assert.equal(await water.pressed("missed-water-4"), "as-used");
  assert.ok((await water.dose()) < 0.7 * dry, `${await water.dose()} of ${dry}`);
  assert.match(await page.locator("#missed").innerText(), /told by now/);
});

cleanJourney("a long silence counts as watered in part, and does not end in a leap", { day: july(1) }, async ({ page, water }) => {
  await water.press("sky", "bright");
  await water.watered().click();
  const missed = page.locator("#missed");
  const doses = [];
  for (const day of [5, 10, 12, 14, 15, 16, 17]) {
    await comeBack(page, july(day));
    doses.push(await water.dose());
    if (day === 5) assert.match(await missed.innerText(), /assumed: not watered/);
    if (day === 10) {
      assert.match(await missed.innerText(), /assumed: watered in part/);
      await water.unfold("missed");
      assert.match(await missed.innerText(), /more than three days in a row without a word/);
      assert.equal(await water.pressed("missed-water-2"), null, "nothing is assumed to be all or nothing");
    }
  }
  for (const [place, dose] of doses.entries()) {
    if (place > 0) assert.ok(dose < 1.5 * doses[place - 1] && dose > 0.45 * doses[place - 1], `${doses}`);
  }
});

cleanJourney("a season that is over is told with the dose and with a programme", { day: "2026-11-28T09:05:00" }, async ({ page, water }) => {
  assert.match(await page.locator("#what-follows").innerText(), /The season is over/);
  await water.press("sky", "dull");
  await page.getByRole("link", { name: "Pest repeats" }).click();
  await page.locator("#take-care").waitFor();
  assert.match(await page.locator("#take-care").innerText(), /The season is over/);
});
