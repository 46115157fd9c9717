// One notebook open in two tabs: each change arrives in the other, and nothing that was typed is lost.
import assert from "node:assert/strict";

import { NOTEBOOK_KEY, open, reload } from "../support/visit.mjs";
import { journey } from "../support/journey.mjs";

/** Waits until a field of `page` holds `text`. */
const holds = (page, name, text) =>
  page.waitForFunction(([name, text]) => document.getElementById(name)?.value === text, [name, text]);

/** Counts the writings of every tab of `context`. */
const countWritings = (context) =>
  context.addInitScript((key) => {
    window.writings = 0;
    const write = Storage.prototype.setItem;
    Storage.prototype.setItem = function (name, text) {
      if (name === key) window.writings += 1;
      return write.call(this, name, text);
    };
  }, NOTEBOOK_KEY);

journey("two tabs: a change in one shows in the other, which does not write it again", {}, async (context) => {
  await countWritings(context);
  const one = await open(context);
  const other = await open(context);
  await one.water.typeSlowly("height", "4.5");
  await holds(other.page, "height", "4.5");
  assert.equal(await other.water.dose(), await one.water.dose());
  const writings = await one.page.evaluate(() => window.writings);
  assert.ok(writings >= 3, "each key is kept");
  await one.page.waitForTimeout(500);
  assert.equal(await other.page.evaluate(() => window.writings), 0, "no echo");
  assert.equal(await one.page.evaluate(() => window.writings), writings, "nor an answer to one");
  one.watched.assertClean();
  other.watched.assertClean();
});

journey("two tabs: what is half typed in one stays while the other changes something else", {}, async (context) => {
  const one = await open(context);
  const other = await open(context);
  await one.water.typeSlowly("height", "4.");
  await other.water.typeSlowly("trusses", "6");
  await holds(one.page, "trusses", "6");
  assert.equal(await one.page.locator("#height").inputValue(), "4.");
  await one.page.locator("#height").press("End");
  await one.page.keyboard.type("5");
  await holds(other.page, "height", "4.5");
  for (const { page, watched } of [one, other]) {
    await reload(page);
    assert.equal(await page.locator("#height").inputValue(), "4.5");
    assert.equal(await page.locator("#trusses").inputValue(), "6");
    watched.assertClean();
  }
});

journey("two tabs: the programme that is looked at stays the same one when another is ended", { day: "2026-07-01T08:00:00" }, async (context) => {
  const one = await open(context, "#pests");
  const press = ({ page }, name, value) => page.locator(`label:has(> input[name="${name}"][value="${value}"])`).click();
  await one.page.locator("#treated button").first().click();
  await one.page.getByText("Vacuumed today").waitFor();
  await press(one, "pest", "spider-mite");
  await one.page.locator(".tag", { hasText: "Red spider" }).waitFor();
  const other = await open(context, "#pests");
  await press(other, "programme", "1");
  await other.page.locator(".tag", { hasText: "Red spider" }).waitFor();
  await press(one, "programme", "0");
  await one.page.getByRole("button", { name: "End this programme" }).click();
  await one.page.locator("#ended button").waitFor();
  await other.page.waitForFunction(() => !document.querySelector('input[name="programme"]'));
  assert.match(await other.page.locator(".tag").first().innerText(), /Red spider/);
  for (const { watched } of [one, other]) watched.assertClean();
});

journey("two tabs: written at the same moment, both changes are kept", {}, async (context) => {
  const one = await open(context);
  const other = await open(context);
  // The second tab does not hear of the first's writing before it writes itself.
  await other.page.evaluate(() => window.addEventListener("storage", (event) => event.stopImmediatePropagation(), true));
  await one.water.press("sky", "clear");
  await other.water.typeSlowly("height", "5");
  await holds(one.page, "height", "5");
  for (const { page, water, watched } of [one, other]) {
    await reload(page);
    assert.equal(await water.pressed("sky"), "clear");
    assert.equal(await page.locator("#height").inputValue(), "5");
    watched.assertClean();
  }
});
