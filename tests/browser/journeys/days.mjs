// The days that are noted: three taps, the way back, and what the next mornings know of them.
import assert from "node:assert/strict";

import { cleanJourney } from "../support/journey.mjs";
import { reload } from "../support/visit.mjs";

const morning = (day) => new Date(2026, 6, day, 7, 40);

async function on(page, day) {
  await page.context().clock.setFixedTime(morning(day));
  await reload(page);
}

cleanJourney("three taps note the morning, and Undo takes it back", { day: "2026-07-09T07:40:00" }, async ({ page, water }) => {
  await water.press("sky", "clear");
  await water.press("feel", "moist");
  const total = await water.total();
  const row = page.locator("#watered");
  await row.getByRole("button").press("Enter");
  assert.match(await row.innerText(), /^Watered at \d+\.40\n/);
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  await reload(page);
  assert.match(await row.innerText(), /in the notebook/);
  assert.equal(await water.total(), total, "what was noted changes nothing of this morning");
  await row.getByRole("button").press("Enter");
  assert.equal(await row.innerText(), "Watered");
  await page.waitForFunction(() => document.activeElement.textContent === "Watered");
});

cleanJourney("the next mornings know what was poured, and a day can be put right", { day: "2026-07-09T07:40:00" }, async ({ page, water }) => {
  const doses = [];
  for (const [day, poured] of [[9, true], [10, false], [11, true]]) {
    await on(page, day);
    await water.press("sky", "bright");
    doses.push(await water.dose());
    if (poured) await page.locator("#watered button").click();
  }
  await on(page, 12);
  await water.press("sky", "bright");
  // The tenth was left out: the dose on the eleventh made up for it.
  assert.ok(doses[2] > doses[1], `${doses}`);
  await water.unfold("days-table");
  const rows = page.locator("#days-table tbody tr");
  assert.deepEqual(await rows.locator("th").allInnerTexts(), ["12 July", "11 July", "10 July", "9 July", "8 July"]);
  assert.match(await rows.nth(2).innerText(), /assumed/);
  const skipped = await water.dose();
  await water.unfold("change-day");
  await page.locator('[name="day"]').selectOption("1");
  await water.typeSlowly("given", "0");
  assert.ok((await water.dose()) > skipped, "less yesterday, more today");
  await water.leave();
  assert.match(await rows.nth(1).innerText(), /none/);
  await reload(page);
  assert.ok((await water.dose()) > skipped);
});

cleanJourney("what the plants taught is told, and put back", { day: "2026-07-01T07:40:00" }, async ({ page, water }) => {
  for (let day = 1; day <= 9; day += 1) {
    await on(page, day);
    await water.press("sky", "clear");
    await water.press("feel", "dry");
    await page.locator("#watered button").click();
  }
  await on(page, 10);
  const learnt = page.locator("#learnt");
  assert.match(await learnt.innerText(), /^These plants drink about \d+ % more than the sum: \d+ readings\. Forget it$/);
  await learnt.getByRole("button").click();
  await learnt.waitFor({ state: "detached" });
});
