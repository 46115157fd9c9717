// More than one kind of plant: groups are added, named, copied, removed and put back.
import assert from "node:assert/strict";

import { cleanJourney } from "../support/journey.mjs";
import { reload } from "../support/visit.mjs";

const link = (page, words) => page.getByRole("button", { name: words, exact: true });

cleanJourney("a group is added, named, copied, removed and put back", {}, async ({ page, water }) => {
  const alone = await water.total();
  await link(page, "Copy this one").click();
  assert.equal((await water.groups()).length, 2);
  assert.ok(Math.abs((await water.total()) - 2 * alone) < 0.3, "twice the plants take twice the water");

  await water.unfold("more-plants");
  await water.typeSlowly("group-name", "Pots by the door");
  await water.typeSlowly("plants", "3");
  await water.leave();
  assert.equal((await water.groups())[1], "Pots by the door");
  const both = await water.total();
  assert.ok((await water.dose(2)) >= 0);

  await link(page, "Remove it").click();
  assert.equal((await water.groups()).length, 1);
  assert.equal(await water.total(), alone);
  await link(page, "Undo").click();
  assert.equal((await water.groups())[1], "Pots by the door");
  assert.equal(await water.total(), both);

  await link(page, "Add a group").click();
  assert.equal((await water.groups()).length, 3);
  await reload(page);
  assert.equal((await water.groups()).length, 3);
  assert.equal((await water.groups())[1], "Pots by the door");
});

cleanJourney("the last group cannot be removed", {}, async ({ page, water }) => {
  assert.equal(await link(page, "Remove it").count(), 0);
  await link(page, "Add a group").click();
  await link(page, "Remove it").click();
  assert.equal(await link(page, "Remove it").count(), 0);
  assert.ok((await water.dose()) > 0);
});

cleanJourney("a name with markup in it is only a name", {}, async ({ page, water }) => {
  await water.unfold("more-plants");
  const name = "<img src=x onerror=alert(1)>";
  await water.typeSlowly("group-name", name);
  await water.leave();
  await reload(page);
  await water.unfold("more-plants");
  assert.equal(await water.field("group-name").inputValue(), name);
  assert.equal(await page.locator("img").count(), 0);
});

cleanJourney("what is noted of one group leaves the others to be noted", { day: "2026-07-09T09:05:00" }, async ({ page, water }) => {
  await link(page, "Copy this one").click();
  await water.openDay("0");
  await water.typeSlowly("given", "1");
  await water.leave();
  const button = page.locator("#watered button");
  await button.filter({ hasText: "Watered the others" }).waitFor();
  assert.equal(await page.locator("#question").innerText(), "Each plant, this morning");
  await page.locator("#round", { hasText: /Water: / }).waitFor(); // only those that are left
  const given = (count) =>
    page.waitForFunction((count) => localStorage.getItem("first-truss.notebook").match(/^given\d+=/gm)?.length === count, count);
  await button.click();
  await page.locator("#watered", { hasText: /Watered at/ }).waitFor();
  assert.equal(await page.locator("#question").innerText(), "Done for today");
  await given(2);
  await button.filter({ hasText: "Undo" }).click();
  await button.filter({ hasText: "Watered the others" }).waitFor();
  await given(1); // what was typed stays
});
