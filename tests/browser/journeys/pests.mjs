// Pest repeats: dates without and with a label, what is noted, the calendar file, several products and the best plan.
import assert from "node:assert/strict";

import ICAL from "ical.js";

import { PestRepeats } from "../pages/pest-repeats.mjs";
import { cleanJourney } from "../support/journey.mjs";
import { comeBack, reload } from "../support/visit.mjs";

const JULY = { day: "2026-07-01T08:00:00", fragment: "#pests" };

/** The entries of a calendar file as an independent reader has them. */
function read(file) {
  return new ICAL.Component(ICAL.parse(file)).getAllSubcomponents("vevent").map((event) => new ICAL.Event(event));
}

const days = (events) => events.map((event) => event.startDate.toString());

cleanJourney("at first sight there is a plan without a label and without a picking date", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  assert.equal(await pests.date("next"), "2026-07-01");
  assert.ok((await pests.number("treatments")) >= 8);
  for (const name of ["pick", "pick-next", "pick-last"]) assert.equal(await pests.date(name), null);
  assert.match(await page.locator(".foot").innerText(), /no picking date/);
  assert.match(await pests.labelFirst(), /Assumed[\s\S]*label comes first/);
  assert.match(await page.locator("#numbers").innerText(), /assumed/);
  // The caution stands at the result, before any scrolling.
  const box = await page.locator("#label-first").boundingBox();
  assert.ok(box.y + box.height < page.viewportSize().height, "the caution is on the first screen");
  assert.equal(await page.locator("#end-programme").isVisible(), false, "nothing is begun that could be ended");
  const button = await pests.treated().boundingBox();
  assert.ok(button.y < page.viewportSize().height, "so is the button");
});

cleanJourney("no label, no spray: the gate opens only when it is read in full", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await page.locator("#label").waitFor();
  assert.match(await pests.labelFirst(), /No spray date before the label is read/);
  assert.match(await page.locator("#question").innerText(), /Vacuum again/);
  for (const name of ["least-days", "most-uses", "days-before-picking", "latest-use"]) {
    assert.equal(await page.locator(`[name="${name}"]`).inputValue(), "", name);
  }
  assert.equal(await pests.date("pick-next"), null);
  await pests.readLabel({ least: "7", most: "3" });
  assert.match(await page.locator("#question").innerText(), /Spray again/);
  assert.equal(await pests.date("pick-next"), null, "days before picking are not known");
  assert.match(await page.locator("#take-care").innerText(), /No picking date/);
  await pests.fill("days-before-picking", "3");
  await page.waitForFunction(() => document.getElementById("answer-pick-next")?.dateTime === "2026-07-04");
  const sprays = (await pests.dates()).slice(0, 3);
  assert.deepEqual(sprays.map(([day]) => day), ["2026-07-01", "2026-07-08", "2026-07-15"]);
  assert.equal(await pests.date("pick-last"), "2026-07-18");
  await pests.press("names-crop", "no");
  assert.match(await pests.labelFirst(), /does not name tomatoes/);
  assert.equal(await pests.date("pick-next"), null);
  assert.match(await page.locator("#question").innerText(), /Vacuum again/);
});

cleanJourney("done, late and left out are noted, kept and taken back", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.treated().click();
  await page.getByText("Vacuumed today").waitFor();
  assert.equal(await pests.number("done"), 1);
  const next = await pests.date("next");
  assert.ok(next > "2026-07-03", next);
  await reload(page);
  assert.equal(await pests.date("next"), next, "kept");
  await comeBack(page, "2026-07-12T08:00:00");
  assert.equal(await pests.date("next"), "2026-07-12", "late: due today");
  await page.locator("#treated").getByRole("button", { name: "Leave this one out" }).click();
  await page.getByText("Left out today").waitFor();
  assert.ok((await pests.date("next")) > "2026-07-12");
  await page.locator("#treated").getByRole("button", { name: "Undo" }).click();
  assert.equal(await pests.date("next"), "2026-07-12");
  await page.locator("#done-earlier").selectOption("2");
  assert.deepEqual((await pests.dates()).slice(0, 2), [["2026-07-01", "done"], ["2026-07-10", "done"]]);
});

cleanJourney("the calendar file is read by another program, and keeps its names", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "5", most: "5", picking: "1" });
  const file = await pests.calendar();
  const first = read(file);
  const planned = (await pests.dates()).filter(([, word]) => word !== "done").map(([day]) => day);
  for (const day of planned) assert.ok(days(first).includes(day), day);
  assert.ok(first.some((event) => event.summary === "Pick tomatoes again"));
  assert.ok(first.some((event) => event.summary === "Whitefly: last old egg is out"));
  assert.equal(new Set(first.map((event) => event.uid)).size, first.length);
  assert.ok(first.every((event) => event.startDate.isDate && event.duration.days === 1));
  assert.equal(file.match(/\n/g).length, file.match(/\r\n/g).length);
  assert.ok(file.split("\r\n").every((line) => Buffer.byteLength(line) <= 75));
  const alarm = first[0].component.getFirstSubcomponent("valarm");
  assert.equal(alarm.getFirstPropertyValue("trigger").toString(), "PT8H");
  await page.context().clock.setFixedTime(new Date("2026-07-01T09:30:00"));
  const again = read(await pests.calendar());
  assert.deepEqual(again.map((event) => event.uid), first.map((event) => event.uid));
  assert.ok(again[0].sequence > first[0].sequence);
});

cleanJourney("the fewest treatments are found without stopping the page, and taken on", { ...JULY, realTimers: true }, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "5", most: "8", picking: "1" });
  await page.getByRole("button", { name: "Find the fewest treatments" }).click();
  await page.locator("#answer-fewest").waitFor();
  const fewest = await pests.number("fewest");
  assert.ok(fewest >= 2 && fewest <= 8, `${fewest}`);
  assert.match(await page.locator("#best-plan").innerText(), /One fewer[\s\S]*One more/);
  await page.getByRole("button", { name: "Take on this plan" }).click();
  await page.waitForFunction((fewest) => document.getElementById("answer-treatments").value === String(fewest), fewest);
});

cleanJourney("each pest has its words, and the programmes stand side by side", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  for (const [pest, sign] of [
    ["spider-mite", /Tap one over white paper/],
    ["russet-mite", /lens/],
    ["leaf-mining-fly", /winding/],
    ["slug", /torch/],
  ]) {
    await pests.press("pest", pest);
    assert.match(await page.locator("#which-pest").innerText(), sign);
  }
  assert.match(await page.locator("#take-care").innerText(), /Old blue pellets[\s\S]*Metaldehyde may not be used/);
  await page.getByRole("button", { name: "Another pest as well" }).click();
  assert.equal(await page.locator('input[name="programme"]').count(), 2);
  assert.match(await page.locator(".tag").first().innerText(), /Whitefly/);
  await page.locator('label:has(> input[name="programme"][value="0"])').click();
  assert.match(await page.locator(".tag").first().innerText(), /Slugs/);
  await page.getByRole("button", { name: "End this programme" }).click();
  assert.equal(await page.locator('input[name="programme"]').count(), 0);
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  await page.keyboard.press("Enter");
  assert.match(await page.locator(".tag").first().innerText(), /Slugs/, "put back, and looked at");
  assert.equal(await page.locator('input[name="programme"]').count(), 2);
  await page.waitForFunction(() => document.activeElement.id === "end-programme");
});
