// A copy in a file: saved, opened in another browser, used or added, and put back; and files that are none.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";

import { cleanJourney } from "../support/journey.mjs";
import { reload } from "../support/visit.mjs";

const JULY = "2026-07-09T07:40:00";

/** The text of a copy of this notebook. */
async function saved({ page, frame }) {
  await frame.goTo("Notebook");
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save a copy to a file" }).click();
  return readFile(await (await download).path(), "utf8");
}

/** Chooses a file of such text. */
const choose = (page, text, name = "first-truss.txt") =>
  page.locator('input[name="copy"]').setInputFiles({ name, mimeType: "text/plain", buffer: Buffer.from(text) });

const button = (page, words) => page.locator("#copy").getByRole("button", { name: words, exact: true });

cleanJourney("a copy is looked at, used, and what was here is put back", { day: JULY }, async (visit) => {
  const { page, water, frame } = visit;
  await water.fill("group-name", "Lean-to <b>east</b>", "more-plants");
  await water.fill("plants", "12");
  await water.press("sky", "clear");
  await water.watered().click();
  const total = await water.total();
  const copy = await saved(visit);
  await page.evaluate(() => localStorage.clear());
  await page.goto("about:blank");
  await page.goBack();
  await page.waitForFunction(() => window.firstTrussStarted);
  await frame.goTo("Morning water");
  await water.fill("plants", "3");
  const mine = await water.total();
  assert.notEqual(mine, total);

  await frame.goTo("Notebook");
  await choose(page, copy);
  // The device reads the file in its own time.
  await page.waitForFunction(() => document.getElementById("copy").innerText.includes("The copy holds"));
  assert.match(await page.locator("#copy").innerText(), /The copy holds: Lean-to <b>east<\/b>; noted: 9 July\./);
  await frame.goTo("Morning water");
  assert.equal(await water.total(), mine, "nothing is changed yet");
  await frame.goTo("Notebook");
  await button(page, "Use it in place of mine").click();
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  await reload(page);
  await frame.goTo("Morning water");
  assert.equal(await water.total(), total, "the copy is kept");

  await water.fill("plants", "5");
  const five = await water.total();
  await frame.goTo("Notebook");
  await choose(page, copy);
  await button(page, "Add it to mine").click();
  await frame.goTo("Morning water");
  assert.equal(await water.total(), five, "what is told here stays");
  await frame.goTo("Notebook");
  await choose(page, copy);
  await button(page, "Use it in place of mine").click();
  await button(page, "Undo").click();
  await frame.goTo("Morning water");
  assert.equal(await water.total(), five);

  // What is noted before it is put back stays.
  await frame.goTo("Notebook");
  await choose(page, copy);
  await button(page, "Use it in place of mine").click();
  await frame.goTo("Morning water");
  await water.press("feel", "dry");
  await frame.goTo("Notebook");
  await button(page, "Undo").click();
  await frame.goTo("Morning water");
  assert.equal(await water.field("plants").inputValue(), "5");
  assert.equal(await water.pressed("feel"), "dry");
});

cleanJourney("a file that is no notebook is refused with a sentence, and nothing is changed", { day: JULY }, async ({ page, water, frame }) => {
  await water.fill("plants", "7");
  const total = await water.total();
  const whole = await saved({ page, frame });
  const files = [
    [whole.replace("plants=7", "plants=NaN"), /not a whole First Truss notebook/],
    [whole.replace("plants=7", "plants=1e308"), /not a whole First Truss notebook/],
    [whole.replace("plants=7", "plants=7\nname=<script>window.hurt = true</script>"), /not a whole First Truss notebook/],
    [whole + "page\nname=more\n".repeat(10_000), /not a whole First Truss notebook/],
    ["", /not a whole First Truss notebook/],
    ["<script>window.hurt = true</script>", /not a whole First Truss notebook/],
    ["first-truss 9\nrevision 1\ncheck 00000000\npage\n", /newer First Truss/],
    ["x".repeat(10_000_000), /too large/],
  ];
  for (const [text, sentence] of files) {
    await choose(page, text);
    await page.waitForFunction(() => document.querySelector("#copy .error-note"));
    assert.match(await page.locator("#copy").innerText(), sentence);
  }
  assert.equal(await page.evaluate(() => window.hurt), undefined);
  await frame.goTo("Morning water");
  assert.equal(await water.total(), total);
});
