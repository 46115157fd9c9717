// Pest repeats: dates without and with a label, what is noted, the calendar file, several products and the best plan.
import assert from "node:assert/strict";

import ICAL from "ical.js";

import { HandOver } from "../pages/hand-over.mjs";
import { PestRepeats } from "../pages/pest-repeats.mjs";
import { cleanJourney } from "../support/journey.mjs";
import { comeBack, reload, setDay } from "../support/visit.mjs";

const JULY = { day: "2026-07-01T08:00:00", fragment: "#pests" };

/** The entries of a calendar file as an independent reader has them. */
function read(file) {
  return new ICAL.Component(ICAL.parse(file)).getAllSubcomponents("vevent").map((event) => new ICAL.Event(event));
}

/** The caution stands at the result, without any scrolling, and says that the label comes first. */
async function assertCautionInSight(page) {
  assert.deepEqual(page.viewportSize(), { width: 390, height: 844 });
  await page.evaluate(() => scrollTo(0, 0));
  const caution = page.locator("#label-first");
  const box = await caution.boundingBox();
  assert.ok(box.y >= 0 && box.y + box.height < 844, `the caution is on the first screen: ${JSON.stringify(box)}`);
  assert.match(await caution.innerText(), /label/i);
}

const days = (events) => events.map((event) => event.startDate.toString());

cleanJourney("at first sight there is a plan without a label and without a picking date", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  assert.equal(await pests.date("next"), "2026-07-01");
  assert.ok((await pests.number("treatments")) >= 8);
  for (const name of ["pick", "pick-next", "pick-last"]) assert.equal(await pests.date(name), null);
  assert.match(await page.locator(".foot").innerText(), /no picking date/);
  assert.match(await pests.labelFirst(), /suggestion[\s\S]*a guess[\s\S]*label comes first/);
  assert.match(await page.locator("#numbers").innerText(), /How the numbers go\s*kills assumed[\s\S]*is assumed/);
  await assertCautionInSight(page);
  assert.equal(await page.locator("#end-programme").isVisible(), false, "nothing is begun that could be ended");
  const button = await pests.treated().boundingBox();
  assert.ok(button.y < page.viewportSize().height, "so is the button");
});

cleanJourney("no label, no spray: the gate opens only when it is read in full", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await page.locator("#label").waitFor();
  assert.match(await pests.labelFirst(), /No spray date before the label is read/);
  await assertCautionInSight(page);
  assert.match(await page.locator("#question").innerText(), /^Vacuum today$/);
  for (const name of ["least-days", "most-uses", "days-before-picking", "latest-use"]) {
    assert.equal(await page.locator(`[name="${name}"]`).inputValue(), "", name);
  }
  assert.equal(await pests.date("pick-next"), null);
  await pests.readLabel({ least: "7", most: "3" });
  assert.match(await page.locator("#question").innerText(), /^Spray today$/);
  assert.equal(await pests.date("pick-next"), null, "days before picking are not known");
  assert.match(await page.locator("#take-care").innerText(), /No picking date/);
  await pests.fill("days-before-picking", "3");
  await page.waitForFunction(() => document.getElementById("answer-pick-next")?.dateTime === "2026-07-04");
  const lines = await pests.lines();
  const sprays = lines.filter(({ name }) => name === "Soap or oil spray").map(({ date }) => date);
  assert.deepEqual(sprays, ["2026-07-01", "2026-07-08", "2026-07-15"]);
  // The label waits longer than the pest: the days between are filled by hand.
  const between = lines.filter(({ date, name }) => name === "Shake and vacuum" && date < "2026-07-15");
  assert.ok(between.length >= 2, JSON.stringify(lines));
  assert.match(await page.locator("#take-care").innerText(), /The label waits longer[\s\S]*by hand fills the wait[\s\S]*cards too/);
  await assertCautionInSight(page);
  assert.equal(await pests.date("pick-last"), "2026-07-18");
  await pests.press("names-crop", "no");
  assert.match(await pests.labelFirst(), /does not name tomatoes/);
  assert.equal(await pests.date("pick-next"), null);
  assert.match(await page.locator("#question").innerText(), /^Vacuum today$/);
});

cleanJourney("done, late and left out are noted, kept and taken back", JULY, async ({ page, frame }) => {
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
  await frame.goTo("Morning water");
  await page.locator("#round", { hasText: /Whitefly: Shake and vacuum/ }).waitFor();
  await frame.goTo("Pest repeats");
  await page.locator("#treated").getByRole("button", { name: "Leave this one out" }).click();
  await page.getByText("Left out today").waitFor();
  assert.ok((await pests.date("next")) > "2026-07-12");
  await page.locator("#treated").getByRole("button", { name: "Undo" }).click();
  assert.equal(await pests.date("next"), "2026-07-12");
  await page.locator("#done-earlier").selectOption("2");
  assert.deepEqual((await pests.dates()).slice(0, 2), [["2026-07-01", "done"], ["2026-07-10", "done"]]);
});

cleanJourney("a second job of a day leaves the spray and its wait, and is taken back alone", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "3", picking: "14" });
  await pests.treated().click();
  await page.getByText("Sprayed today").waitFor();
  await page.locator('[name="done-with"]').selectOption({ label: "Shake and vacuum" });
  await page.locator('[name="done-earlier"]').selectOption("0");
  await page.getByText("Vacuumed today").waitFor();
  const noted = async () => (await pests.lines()).filter(({ word }) => word === "done").map(({ date, name }) => [date, name]);
  const both = [["2026-07-01", "Soap or oil spray"], ["2026-07-01", "Shake and vacuum"]];
  assert.deepEqual(await noted(), both);
  assert.equal(await pests.date("pick"), "2026-07-15", "the wait stands");
  await reload(page);
  await page.locator(".dates li").first().waitFor();
  assert.deepEqual(await noted(), both, "kept");
  await page.locator("#treated").getByRole("button", { name: "Undo" }).click();
  await page.getByText("Sprayed today").waitFor();
  assert.deepEqual(await noted(), both.slice(0, 1), "the last of the day alone");
  assert.equal(await pests.date("pick"), "2026-07-15");
});

cleanJourney("the wait of a spray goes on beside another pest, after the end of its programme, and in the round", JULY, async ({ page, frame }) => {
  const pests = new PestRepeats(page);
  const rest = () => page.locator(".foot .rest").innerText();
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "3", picking: "14" });
  await pests.treated().click();
  await page.getByText("Sprayed today").waitFor();
  // What is noted of whitefly stays there: another pest has a programme of its own.
  await pests.press("pest", "slug");
  await page.locator('input[name="programme"]').nth(1).waitFor({ state: "attached" });
  assert.match(await page.locator(".tag").first().innerText(), /Slugs/);
  assert.match(await rest(), /^do not pick before Wed 15 July/);
  // Back at once: nothing of the other is left.
  await pests.press("pest", "whitefly");
  await page.locator('input[name="programme"]').first().waitFor({ state: "detached" });
  assert.equal(await pests.number("done"), 1);
  await pests.press("pest", "slug");
  await page.locator('input[name="programme"]').nth(1).waitFor({ state: "attached" });
  // What was chosen there stays.
  await page.locator('[name="extent"]').selectOption("least");
  await pests.press("pest", "whitefly");
  assert.equal(await page.locator('input[name="programme"]').count(), 2);
  assert.match(await page.locator(".tag").first().innerText(), /Whitefly/);
  assert.equal(await pests.number("done"), 1);
  // A pest that has one is looked at again.
  await page.locator("#treated").getByRole("button", { name: "Undo" }).waitFor();
  await pests.press("pest", "slug");
  assert.equal(await page.locator('input[name="programme"]').count(), 2);
  await pests.press("programme", "0");
  await page.getByRole("button", { name: "End this programme" }).click();
  await page.locator("#ended", { hasText: "pick only as its label says" }).waitFor();
  assert.match(await page.locator(".tag").first().innerText(), /Slugs/);
  assert.match(await rest(), /^do not pick before Wed 15 July/);
  // What was done in it stays on the season's page.
  await page.evaluate(() => void (location.hash = "whole-season"));
  await page.locator(".paper tr", { hasText: "Whitefly" }).waitFor();
  assert.match(await page.locator(".paper tr", { hasText: "Whitefly" }).innerText(), /1 July\s+Whitefly: Soap or oil spray/);
  await page.goBack();
  await frame.goTo("Morning water");
  await page.locator("#round", { hasText: "not before Wed 15 July" }).waitFor();
  assert.match(await page.locator("#round").innerText(), /Not today[\s\S]*Pick\s*not before Wed 15 July/);
  // Whoever waters is told, though what stood on the label stays here.
  const owner = new HandOver(page);
  const link = await owner.link();
  await page.evaluate((address) => void (location.href = address), link);
  await page.locator("#whose", { hasText: "Pick nothing before Wed 15 July" }).waitFor();
  await frame.goTo("Pest repeats");
  await reload(page);
  // Nobody can put that programme back any more, but a wait that was wrong can be taken out.
  await page.locator("#ended", { hasText: "not before Wed 15 July" }).waitFor();
  const forget = page.getByRole("button", { name: "Forget it" });
  await forget.press("Enter");
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  assert.match(await rest(), /^no label needed, no picking date/);
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement.textContent === "Forget it");
  assert.match(await rest(), /^do not pick before Wed 15 July/);
  await forget.click();
  await reload(page);
  assert.match(await rest(), /^no label needed, no picking date/);
});

cleanJourney("what nobody read the label of gives no picking date, not even after its programme has ended", JULY, async ({ page, frame }) => {
  const pests = new PestRepeats(page);
  const rest = () => page.locator(".foot .rest").innerText();
  await page.locator('[name="done-with"]').selectOption({ label: "Soap or oil spray" });
  await page.locator('[name="done-earlier"]').selectOption("0");
  await page.getByText("Sprayed today").waitFor();
  await pests.press("pest", "slug");
  await page.locator('input[name="programme"]').nth(1).waitFor({ state: "attached" });
  assert.match(await rest(), /^no picking date without the label/);
  assert.match(await page.locator("#take-care").innerText(), /Used elsewhere: No picking date/);
  await pests.press("programme", "0");
  await page.getByRole("button", { name: "End this programme" }).click();
  assert.match(await rest(), /^no picking date without the label/);
  await frame.goTo("Morning water");
  await page.locator("#round", { hasText: "not before you have read the label of what was used" }).waitFor();
});

cleanJourney("what waits for no day is picked once it is dry; what is over says how to begin again", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  const rest = () => page.locator(".foot .rest").innerText();
  await pests.press("pest", "slug");
  await pests.press("control", "ferric-phosphate");
  await pests.readLabel({ least: "7", most: "4", picking: "0" });
  assert.match(await rest(), /^if used today, once dry, pick from\s*Wed 1 July/);
  await pests.treated().click();
  await page.getByText("Laid today").waitFor();
  assert.match(await rest(), /^once dry, pick from Wed 1 July/);
  assert.match(await page.locator(".nothing-due").innerText(), /begin again: “Another pest as well”\. What was used counts towards the label’s most uses/);
  await comeBack(page, "2026-07-02T08:00:00");
  assert.match(await rest(), /^the wait is over since Wed 1 July/);
  await page.getByRole("button", { name: "Another pest as well" }).click();
  await pests.press("pest", "slug");
  assert.equal(await pests.date("next"), "2026-07-02", "from today on");
  assert.equal(await pests.number("done"), 0);
});

cleanJourney("a last day of use that cannot be read gives no spray", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "3", picking: "2" });
  await pests.fill("latest-use", "end of August");
  await page.locator("#label-first", { hasText: "any last day are read" }).waitFor();
  assert.match(await page.locator("#question").innerText(), /^Vacuum today$/);
  assert.equal(await pests.date("pick-next"), null);
  await pests.fill("latest-use", "31 August 2026");
  await page.locator("#label-first", { hasText: "win over every date" }).waitFor();
  assert.match(await page.locator("#question").innerText(), /^Spray today$/);
});

cleanJourney("another place has other dates", JULY, async ({ page, frame, notebook }) => {
  const pests = new PestRepeats(page);
  const last = await pests.date("last");
  await frame.goTo("Notebook");
  await notebook.fill("latitude", "58");
  await frame.goTo("Pest repeats");
  await page.locator("#answer-last").waitFor();
  assert.ok((await pests.date("last")) > last, "it is cooler there");
});

cleanJourney("no calendar file is offered where there is no date", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  const button = page.locator("#to-calendar button");
  assert.ok(await button.isVisible());
  await pests.press("pest", "leaf-mining-fly");
  await button.waitFor({ state: "hidden" });
  await pests.press("pest", "aphid");
  await button.waitFor();
});

cleanJourney("sprays are counted by themselves, and what is done by hand between them stands apart", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "4", picking: "3" });
  const lines = await pests.lines();
  const sprays = lines.filter(({ name }) => name.startsWith("Soap or oil spray"));
  assert.ok(sprays.length > 1 && sprays.length < lines.length, JSON.stringify(lines));
  assert.equal(await pests.number("treatments"), sprays.length);
  assert.match(await page.locator(".foot").innerText(), /^0 of \d sprays/);
  const marked = async (word) => (await page.locator(".cal td").allInnerTexts()).filter((text) => text.endsWith(word)).length;
  assert.ok((await marked("spray")) > 0 && (await marked("hand")) > 0);
  await pests.treated().click();
  await page.getByText("Sprayed today").waitFor();
  // Nobody has vacuumed yet.
  assert.equal(await page.locator("#question").innerText(), "Vacuum");
  assert.equal(await pests.number("done"), 1);
  const told = page.locator("#to-calendar").getByText("Given as a file");
  assert.equal(await told.isVisible(), false);
  await pests.calendar();
  await told.waitFor();
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
  await setDay(page.context(), "2026-07-01T09:30:00");
  const again = read(await pests.calendar());
  assert.deepEqual(again.map((event) => event.uid), first.map((event) => event.uid));
  assert.ok(again[0].sequence > first[0].sequence);
  // Another job on one of the days moves no name to another date.
  await page.locator('[name="done-with"]').selectOption({ label: "Shake and vacuum" });
  await page.locator('[name="done-earlier"]').selectOption("0");
  await page.getByText("Vacuumed today").waitFor();
  const sprays = (events) => events.filter(({ uid }) => uid.includes("-contact-spray-")).map(({ uid, startDate }) => [uid, startDate.toString()]);
  const later = sprays(read(await pests.calendar()));
  assert.ok(later.length > 1);
  assert.deepEqual(later, sprays(first));
  // A day to wait after each spray, and then picking until the next.
  const picks = first.filter(({ summary }) => /^Pick tomatoes/.test(summary)).map(({ startDate }) => startDate.toJSDate().getTime());
  const dayAfter = first.filter(({ uid }) => uid.includes("-contact-spray-")).map(({ startDate }) => startDate.toJSDate().getTime() + 86_400_000);
  assert.deepEqual(picks, dayAfter);
});

cleanJourney("where the label asks for no wait, no day in the calendar looks like the end of one", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "5", most: "3", picking: "0" });
  const events = read(await pests.calendar());
  assert.ok(events.filter(({ uid }) => uid.includes("-contact-spray-")).length > 1);
  assert.deepEqual(events.filter(({ summary }) => /^Pick/.test(summary)), []);
});

cleanJourney("the calendar file goes to the share sheet where the device takes it, in the very tap", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await page.evaluate(() => {
    window.shared = [];
    // As when the grower closes the sheet again.
    window.refusal = "AbortError";
    let isInClick = false;
    addEventListener("click", () => (isInClick = true), true);
    addEventListener("click", () => (isInClick = false));
    const define = (name, value) => Object.defineProperty(navigator, name, { value, configurable: true });
    define("canShare", ({ files }) => files.every((file) => file.type === "text/calendar"));
    define("share", async ({ files: [file] }) => {
      window.shared.push({ isInClick, name: file.name, text: await file.text() });
      if (window.refusal) throw new DOMException("not shared", window.refusal);
    });
  });
  let downloads = 0;
  page.on("download", () => (downloads += 1));
  await page.locator("#to-calendar button").click();
  await page.waitForFunction(() => window.shared.length === 1);
  const [{ isInClick, name, text }] = await page.evaluate(() => window.shared);
  assert.ok(isInClick, "a browser opens its sheet for a tap alone");
  assert.equal(name, "first-truss-pests.ics");
  assert.ok(read(text).length > 5);
  assert.equal(downloads, 0, "one way, not both");
  const told = page.locator("#to-calendar .note");
  assert.equal(await told.textContent(), "", "nothing was given");
  await page.evaluate(() => void (window.refusal = null));
  await page.locator("#to-calendar button").click();
  await told.filter({ hasText: /^Given as a file/ }).waitFor();
  await page.locator("#said", { hasText: /^Given as a file/ }).waitFor({ state: "attached" });
  assert.equal(downloads, 0, "the sheet has it");
  // A device that says it takes the file, and then refuses it.
  await page.evaluate(() => void (window.refusal = "NotAllowedError"));
  assert.ok(read(await pests.calendar()).length > 5);
  assert.equal(await page.evaluate(() => window.shared.length), 3);
  // A device that takes no such file gets it to keep.
  await page.evaluate(() => Object.defineProperty(navigator, "canShare", { value: () => false }));
  assert.ok(read(await pests.calendar()).length > 5);
  assert.equal(await page.evaluate(() => window.shared.length), 3);
});

cleanJourney("a second product takes its turn, with a label of its own", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "5", most: "2", picking: "1" });
  assert.match(await page.locator("#take-care").innerText(), /uses end first/);
  await page.locator('[name="add-product"]').selectOption("other-spray");
  // Nothing of the first label holds for it.
  for (const name of ["least-days", "most-uses", "days-before-picking", "latest-use"]) {
    assert.equal(await page.locator(`[name="${name}"]`).inputValue(), "", name);
  }
  assert.match(await page.locator("#take-care").innerText(), /Other spray 2: One gives no dates/);
  assert.equal(await pests.date("pick-next"), "2026-07-02", "the first one still does");
  await pests.readLabel({ least: "5", most: "4" });
  await page.locator('[name="product-name"]').fill("Green bottle; plot 14");
  await page.locator("#question").focus();
  const sprays = (await pests.lines()).filter(({ name }) => name !== "Shake and vacuum").map(({ name }) => name);
  assert.deepEqual(sprays.slice(0, 3), ["Soap or oil spray 1", "Soap or oil spray 1", "Green bottle; plot 14"]);
  // Its days before picking are not known: there is no day for after the last.
  assert.equal(await pests.date("pick-last"), null);
  assert.match(await page.locator("#take-care").innerText(), /Green bottle; plot 14: No picking date/);
  await pests.fill("days-before-picking", "30");
  await page.waitForFunction(() => document.getElementById("answer-pick-last"));
  const last = (await pests.lines()).filter(({ name }) => name === "Green bottle; plot 14").at(-1).date;
  const wait = (Date.parse(await pests.date("pick-last")) - Date.parse(last)) / 86_400_000;
  assert.equal(wait, 30, "the longer wait counts");
  // The name comes through the calendar file, whatever stands in it.
  const events = read(await pests.calendar());
  assert.ok(events.some(({ summary }) => summary === "Whitefly: Green bottle; plot 14"));
  // The first label is as it was read; the second can be put aside.
  await pests.press("product", "1");
  assert.equal(await page.locator('[name="most-uses"]').inputValue(), "2");
  await pests.press("product", "2");
  await page.locator("label:has(> #product-used)").click();
  await page.waitForFunction(() => !document.querySelector(".dates").textContent.includes("Green bottle"));
  await reload(page);
  assert.match(await page.locator("#label").innerText(), /Green bottle/, "kept");
});

cleanJourney("counts on a sticky card alone say whether it works", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "5", most: "9", picking: "1" });
  await page.locator("label:has(> #beside-sticky-cards)").click();
  await page.locator("#treated button").first().click();
  const count = async (seen) => {
    await page.locator('[name="pest-count"]').fill(String(seen));
    await page.getByRole("button", { name: "Note this count" }).click();
    await page.locator("#did-it-work").getByText(`${seen} on the card`).waitFor();
  };
  assert.equal(await page.locator('[name="count-on"]').inputValue(), "card", "cards hang");
  await count(400);
  assert.doesNotMatch(await page.locator("#did-it-work").innerText(), /It is working|They do not mind it/, "one count says nothing");
  await comeBack(page, "2026-07-08T08:00:00");
  await count(20);
  assert.match(await page.locator("#did-it-work").innerText(), /It is working/);
  await count(900);
  await comeBack(page, "2026-07-15T08:00:00");
  await count(1600);
  assert.match(await page.locator("#did-it-work").innerText(), /They do not mind it[\s\S]*change the method/);
});

cleanJourney("what lives is brought in once it is warm enough", { day: "2026-04-02T08:00:00", fragment: "#pests" }, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "parasitoid");
  const from = await pests.date("introduce");
  assert.ok(from > "2026-05-01", from);
  assert.equal(await pests.date("next"), from, "the next date is that day");
  const days = (await pests.dates()).map(([day]) => (Date.parse(day) - Date.parse(from)) / 86_400_000);
  assert.deepEqual(days, [0, 14, 28, 42]);
  assert.match(await page.locator("#take-care").innerText(), /Too cool for them yet/);
});

cleanJourney("the fewest treatments are found without stopping the page, and taken on", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "5", most: "8", picking: "1" });
  await page.getByRole("button", { name: "Find the fewest treatments" }).click();
  await page.locator("#answer-fewest").waitFor();
  const fewest = await pests.number("fewest");
  assert.ok(fewest >= 2 && fewest <= 8, `${fewest}`);
  assert.match(await page.locator("#best-plan").innerText(), /numbers of the first day[\s\S]*One fewer[\s\S]*One more/);
  await page.waitForFunction(() => document.activeElement?.textContent === "Take on this plan");
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

cleanJourney("temperatures stand there in the grower’s own scale", JULY, async ({ page, frame, notebook }) => {
  const told = async () => {
    await page.locator("#slugs p").waitFor();
    await page.locator("#pest-warmth").waitFor();
    const [, dusk, night] = (await page.locator("#slugs").innerText()).match(/Usual for the night: (\d+)° at dusk and falling to (\d+)°/);
    const [, week, scale] = (await page.locator("#pest-warmth > summary").innerText()).match(/this week (\d+) (°.)/);
    return [Number(dusk), Number(night), Number(week), scale];
  };
  const celsius = await told();
  assert.equal(celsius.pop(), "°C");
  await frame.goTo("Notebook");
  await notebook.press("temperature-scale", "fahrenheit");
  await frame.goTo("Pest repeats");
  const fahrenheit = await told();
  assert.equal(fahrenheit.pop(), "°F");
  for (const [place, degrees] of celsius.entries()) {
    // Each is rounded: 0.9 °F and a half.
    assert.ok(Math.abs(fahrenheit[place] - (degrees * 1.8 + 32)) <= 1.4, `${degrees} °C, ${fahrenheit[place]} °F`);
  }
  // In the sentences too: soap scorches from 29 °C, 84.2 °F.
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "3", picking: "2" });
  assert.match(await page.locator("#take-care").innerText(), /below 84 °F/);
  await frame.goTo("Notebook");
  await notebook.press("temperature-scale", "celsius");
  await frame.goTo("Pest repeats");
  assert.match(await page.locator("#take-care").innerText(), /below 29 °C/);
});

cleanJourney("after a spray the day that matters stands first, and plate, weeks and calendar agree", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "3", picking: "2" });
  assert.match(await page.locator(".foot").innerText(), /if used today, pick from\s*Fri 3 July/);
  await pests.treated().click();
  await page.getByText("Sprayed today").waitFor();
  assert.match(await page.locator("#question").innerText(), /^Vacuum$/);
  assert.equal(await pests.date("pick"), "2026-07-03");
  assert.match(await page.locator(".foot .rest").innerText(), /^do not pick before Fri 3 July/);
  assert.match(await page.locator(".cal td", { hasText: "pick" }).first().innerText(), /^3\s+pick$/);
  const events = read(await pests.calendar());
  const picking = events.filter((event) => /^Pick/.test(event.summary)).map((event) => event.startDate.toString());
  assert.ok(picking.includes("2026-07-03"), picking.join());
});

cleanJourney("the dates say what warmth they rest on, and a tap leads to where it is told", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  const told = () => page.locator("#label-first + .note").innerText();
  assert.match(await told(), /^Dates for \d+ °C on average, usual in an unheated house in July: change$/);
  await page.locator("#label-first + .note a").click();
  await page.locator("#pest-mean").waitFor();
  const last = await pests.date("last");
  await pests.fill("pest-mean", "27");
  await page.waitForFunction((last) => document.getElementById("answer-last").dateTime !== last, last);
  assert.match(await told(), /^Dates for 27 °C on average, as you told: change$/);
});

cleanJourney("a programme stays with its plants, whichever group is looked at", JULY, async ({ page, frame, water }) => {
  const pests = new PestRepeats(page);
  const told = () => page.locator("#label-first + .note").innerText();
  const under = /usual in an unheated house/;
  const list = page.locator("#pest-plants");
  assert.equal(await list.count(), 0, "one group leaves no choice");
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "3", picking: "1" });
  const last = await pests.date("last");
  await frame.goTo("Morning water");
  await water.add();
  await water.press("place", "outdoors");
  await frame.goTo("Pest repeats");
  await list.waitFor();
  assert.deepEqual([await list.inputValue(), await pests.date("last")], ["0", last]);
  assert.match(await told(), under);
  // Another place is colder, and the label has not been asked about it.
  await list.selectOption({ label: "Outdoors" });
  await page.waitForFunction(() => document.querySelector("#label-first + .note").textContent.includes("usual outdoors"));
  assert.match(await pests.labelFirst(), /label/i);
  assert.equal(await page.locator('input[name="names-place"][value="yes"]').isChecked(), false);
  assert.equal(await page.locator('input[name="names-crop"][value="yes"]').isChecked(), true);
  await pests.press("names-place", "yes");
  assert.notEqual(await pests.date("last"), last);
  assert.match(read(await pests.calendar())[0].summary, /^Whitefly, Outdoors: /, "the calendar names the plants too");
  await reload(page);
  await list.waitFor();
  assert.equal(await list.inputValue(), "1");
  // On the way back all is as it was; what is begun next is for the same plants.
  await list.selectOption({ label: "Under glass" });
  assert.equal(await page.locator('input[name="names-place"][value="yes"]').isChecked(), false, "asked about the other place last");
  await list.selectOption({ label: "Outdoors" });
  assert.equal(await page.locator('input[name="names-place"][value="yes"]').isChecked(), true);
  await page.getByRole("button", { name: "Another pest as well" }).click();
  assert.equal(await list.inputValue(), "1");
});

cleanJourney("days by hand between the sprays are explained, and one tap takes them out", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "10", most: "3", picking: "2" });
  const names = async () => (await pests.lines()).map(({ name }) => name);
  assert.ok((await names()).includes("Shake and vacuum"));
  assert.match(await page.locator("#dates").innerText(), /Shake and vacuum on the days marked “hand”: it needs no label/);
  await page.locator("#by-hand-between").click();
  assert.deepEqual([...new Set(await names())], ["Soap or oil spray"]);
  await reload(page);
  await page.locator("#dates li").first().waitFor();
  assert.deepEqual([...new Set(await names())], ["Soap or oil spray"], "kept");
  await page.locator("#by-hand-between").click();
  assert.ok((await names()).includes("Shake and vacuum"));
});

cleanJourney("what was done to the same plants against another pest is heeded", JULY, async ({ page, frame }) => {
  const pests = new PestRepeats(page);
  const care = () => page.locator("#take-care").innerText();
  await pests.press("pest", "spider-mite");
  await pests.press("control", "water-jet");
  await pests.treated().click();
  await page.getByText("Hosed today").waitFor();
  await comeBack(page, `${await pests.date("next")}T08:00:00`);
  await page.locator("#dates li").first().waitFor();
  assert.doesNotMatch(await care(), /Not today/);
  await pests.press("pest", "whitefly");
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "3", picking: "1" });
  await pests.treated().click();
  await page.getByText("Sprayed today").waitFor();
  await pests.press("programme", "0");
  await page.getByText("Not today: they were sprayed").waitFor();
  await frame.goTo("Morning water");
  assert.match(await page.locator("#round").innerText(), /Not today[\s\S]*Water jet[\s\S]*sprayed today: water would wash it off/);
  await frame.goTo("Pest repeats");
  await page.getByRole("button", { name: "Another pest as well" }).click();
  await pests.press("pest", "aphid");
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "3", picking: "1" });
  await page.getByText("Used on these plants already").waitFor();
  assert.match(await care(), /against whitefly\. If it is the same product, that use counts here too/);
});

cleanJourney("what was sprayed in a programme that was ended is heeded, by another spray and by what is brought in", JULY, async ({ page, frame }) => {
  const pests = new PestRepeats(page);
  const care = () => page.locator("#take-care").innerText();
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "1", picking: "3" });
  assert.match(await care(), /Pick what is ripe first/);
  await pests.treated().click();
  await page.getByText("Sprayed today").waitFor();
  await page.getByRole("button", { name: "End this programme" }).click();
  await page.locator("#ended", { hasText: "the programme was ended" }).waitFor();
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "1", picking: "3" });
  await page.getByText("Used on these plants already").waitFor();
  assert.match(await care(), /Wed 1 July against whitefly\. If it is the same product, that use counts here too: say so at its label, or note it here/);
  assert.doesNotMatch(await care(), /Pick what is ripe first/, "the first still waits");
  await frame.goTo("Morning water");
  assert.doesNotMatch(await page.locator("#round").innerText(), /pick what is ripe first/);
  await frame.goTo("Pest repeats");
  await pests.press("control", "parasitoid");
  await page.waitForFunction(() => document.getElementById("answer-introduce")?.dateTime === "2026-07-03");
});

cleanJourney("more uses than a label allows are told beside their number", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "1", most: "1", picking: "1" });
  await pests.treated().click();
  await page.getByText("Sprayed today").waitFor();
  await page.locator("#done-earlier").selectOption("3");
  await page.locator("main .foot", { hasText: /^2 of 2 sprays; its label allows 1/ }).waitFor();
});

cleanJourney("a product that is used against two pests has one label, and both count", JULY, async ({ page, frame }) => {
  const pests = new PestRepeats(page);
  const care = () => page.locator("#take-care").innerText();
  const same = page.locator("#same-product");
  await pests.press("pest", "whitefly");
  await pests.press("control", "contact-spray");
  assert.equal(await same.count(), 0, "nothing that it could be the same as");
  await pests.readLabel({ least: "7", most: "3", picking: "1" });
  await pests.treated().click();
  await page.getByText("Sprayed today").waitFor();
  await page.getByRole("button", { name: "Another pest as well" }).click();
  await pests.press("pest", "spider-mite");
  await pests.press("control", "contact-spray");
  // What was typed of its own label is there again when it is another product after all.
  await pests.fill("least-days", "5");
  await same.selectOption({ index: 1 });
  assert.match(await same.locator("option").nth(1).innerText(), /^Whitefly: Soap or oil spray/);
  await page.getByText("The same product was used").waitFor();
  assert.match(await care(), /against whitefly\. If it reached these too, note it here as done: it is one use/);
  assert.equal(await page.locator('[name="least-days"]').inputValue(), "7", "read once");
  assert.equal(await pests.date("next"), "2026-07-01", "that may be the same use");
  await same.selectOption("0");
  await page.locator("#label-first, #dates").first().waitFor();
  assert.equal(await page.locator('[name="least-days"]').inputValue(), "5");
  assert.equal(await page.locator('[name="most-uses"]').inputValue(), "");
  await same.selectOption("1");
  // On the next day it has to wait for the label.
  await comeBack(page, "2026-07-02T08:00:00");
  await frame.goTo("Pest repeats");
  await pests.press("programme", "1");
  await page.getByText("The same product was used").waitFor();
  assert.match(await care(), /The days between and the most uses count it/);
  assert.equal(await pests.date("next"), "2026-07-08");
  const sprays = async () => (await pests.lines()).filter(({ name }) => name === "Soap or oil spray").map(({ date }) => date);
  assert.deepEqual(await sprays(), ["2026-07-08", "2026-07-15"], "two of three are left");
  const tooOften = page.getByText("Planned for both, and too often");
  assert.equal(await tooOften.count(), 0, "both are sprayed on the same two days");
  await pests.fill("least-days", "3");
  await page.locator("#question").focus();
  const mites = await sprays();
  await pests.press("programme", "0");
  const ahead = (await sprays()).filter((day) => day > "2026-07-02");
  const both = new Set([...mites, ...ahead]);
  assert.ok(both.size > 2, `${[...both]}`);
  await tooOften.waitFor();
  const together = `planned on ${both.size} days, here and against red spider, and its label leaves 2\\.`;
  assert.match(await care(), new RegExp(`Planned for both, and too often\\s+This product is ${together}`));
  await pests.press("programme", "1");
  assert.match(await care(), /This product is planned on \d days, here and against whitefly/);
  await pests.fill("most-uses", "9");
  await tooOften.waitFor({ state: "detached" });
  await pests.fill("most-uses", "3");
  await tooOften.waitFor();
  // What is corrected on one is corrected on the other.
  await pests.fill("least-days", "9");
  await page.locator("#question").focus();
  await pests.press("programme", "0");
  assert.equal(await page.locator('[name="least-days"]').inputValue(), "9");
});

cleanJourney("whoever corrects which product it is leaves the first one's label alone", JULY, async ({ page }) => {
  const pests = new PestRepeats(page);
  const least = page.locator('[name="least-days"]');
  const same = page.locator("#same-product");
  await pests.press("pest", "whitefly");
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "3", picking: "1" });
  await page.getByRole("button", { name: "Another pest as well" }).click();
  await pests.press("pest", "spider-mite");
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "5", most: "4", picking: "2" });
  await page.getByRole("button", { name: "Another pest as well" }).click();
  await pests.press("pest", "thrips");
  await pests.press("control", "contact-spray");
  await same.selectOption({ index: 1 });
  await page.waitForFunction(() => document.querySelector('[name="least-days"]').value === "5");
  await same.selectOption({ index: 2 });
  await page.waitForFunction(() => document.querySelector('[name="least-days"]').value === "7");
  assert.match(await same.locator("option:checked").innerText(), /^Whitefly/);
  await pests.press("programme", "1");
  assert.equal(await least.inputValue(), "5", "a slip of the finger costs no label");
  assert.equal(await same.inputValue(), "0");
  await pests.press("programme", "0");
  assert.equal(await least.inputValue(), "7");

  // What an ended programme left to others goes when it is put back and its spray is taken back.
  await pests.treated().click();
  await page.getByText("Sprayed today").waitFor();
  await page.getByRole("button", { name: "End this programme" }).click();
  await page.locator("#ended").getByRole("button", { name: "Undo" }).click();
  await page.locator("#treated").getByRole("button", { name: "Undo" }).click();
  await pests.press("programme", "2");
  await page.waitForFunction(() => !document.querySelector("#take-care").innerText.includes("1 went in other programmes"));
  assert.equal(await pests.date("next"), "2026-07-01");
  assert.doesNotMatch(await page.locator("#take-care").innerText(), /other programmes/);
});
