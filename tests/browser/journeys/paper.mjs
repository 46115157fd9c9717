// The week and the season on paper: A4 and A5, black on white, and nothing on it that can only be pressed.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";

import { misfits } from "../support/fit.mjs";
import { cleanJourney } from "../support/journey.mjs";
import { comeBack, reload } from "../support/visit.mjs";

/** The widths of A4 and A5 between margins of 12 mm, in CSS pixels. */
const PAPERS = { A4: 703, A5: 469 };

/** What is kept after these weeks: grown once, and opened by whoever needs it again. */
let grown;

/** Three weeks with two groups, fed twice, treated once. */
async function grow({ page, water, feed, frame }) {
  if (grown) {
    await page.evaluate((kept) => Object.assign(localStorage, kept), grown);
    await comeBack(page, "2026-07-08T07:40:00");
    return;
  }
  await water.fill("group-name", "Lean-to", "more-plants");
  await water.fill("plants", "12");
  await water.fill("height", "4");
  await water.add();
  await water.press("place", "outdoors");
  await water.fill("plants", "4");
  for (let day = 20; day <= 38; day += 1) {
    const date = day <= 30 ? `06-${day}` : `07-${String(day - 30).padStart(2, "0")}`;
    await comeBack(page, `2026-${date}T07:40:00`);
    await water.press("sky", ["clear", "bright", "mixed", "dull"][day % 4]);
    if (day % 3 === 0) await water.press("feel", "dry");
    await water.watered().click();
  }
  await frame.goTo("Feed mix");
  await feed.fed().click();
  await frame.goTo("Pest repeats");
  await page.locator("#treated button").first().click();
  await page.getByRole("button", { name: "Undo" }).waitFor();
  await frame.goTo("Morning water");
  grown = await page.evaluate(() => ({ ...localStorage }));
}

const sheet = async (page, name) => {
  await page.evaluate((name) => void (location.hash = name), name);
  await page.waitForFunction(() => document.activeElement.id === "question" && document.querySelector(".paper h1"));
};

/** What is printed in another colour than black, or on another than white; and what is left that can only be pressed. */
const wrongOnPaper = (page) =>
  page.evaluate(() => {
    const faults = [];
    for (const element of document.querySelectorAll(".strip *, main *")) {
      const { color, backgroundColor, display, visibility } = getComputedStyle(element);
      const isShown = element.getClientRects().length > 0 && display !== "none" && visibility !== "hidden";
      if (!isShown || element.closest("svg")) continue;
      const has = [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.textContent.trim());
      if (has && color !== "rgb(0, 0, 0)") faults.push(`${color}: ${element.textContent.trim().slice(0, 30)}`);
      if (!["rgba(0, 0, 0, 0)", "rgb(255, 255, 255)"].includes(backgroundColor)) faults.push(`on ${backgroundColor}: ${element.className}`);
      if (element.matches("button, input, select, textarea")) faults.push(element.outerHTML.slice(0, 60));
    }
    return faults;
  });

/** Pages of a PDF. */
const pages = (pdf) => pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;

cleanJourney("the week and the season are printed on A4 and A5", { day: "2026-06-19T07:40:00" }, async (visit) => {
  const { page } = visit;
  await grow(visit);
  const most = { week: { A4: 1, A5: 2 }, "whole-season": { A4: 3, A5: 5 } };
  for (const name of ["week", "whole-season"]) {
    await sheet(page, name);
    for (const [format, width] of Object.entries(PAPERS)) {
      await page.emulateMedia({ media: "print", colorScheme: "dark" });
      await page.setViewportSize({ width, height: 900 });
      assert.deepEqual(await wrongOnPaper(page), [], `${name} on ${format}`);
      assert.deepEqual(await misfits(page, { lists: false }), [], `${name} on ${format}`);
      const pdf = await page.pdf({ format, printBackground: false, preferCSSPageSize: false });
      const count = pages(pdf);
      assert.ok(count >= 1 && count <= most[name][format], `${name} on ${format}: ${count} pages`);
    }
    await page.emulateMedia({ media: "screen", colorScheme: "light" });
    await page.setViewportSize({ width: 390, height: 844 });
    assert.equal(await page.getByRole("button", { name: "Print this page" }).count(), 1);
  }
});

cleanJourney("the sheets say what the screens say", { day: "2026-06-19T07:40:00" }, async (visit) => {
  const { page, frame, water } = visit;
  await grow(visit);
  await sheet(page, "week");
  const rows = await page.locator(".paper table").first().locator("tbody tr").evaluateAll((rows) =>
    rows.map((row) => [...row.cells].map((cell) => cell.innerText.trim())),
  );
  assert.equal(rows.length, 5, "two groups, a bag of each, and all");
  const number = (text) => {
    const parts = { "¼": 0.25, "½": 0.5, "¾": 0.75 };
    return [...text].reduce((sum, sign) => (sign in parts ? sum + parts[sign] : sum * 10 + Number(sign)), 0);
  };
  for (const [name, ...cells] of rows) {
    const values = cells.map(number);
    for (let at = 1; at < values.length; at += 1) assert.ok(values[at] <= values[at - 1], `${name}: ${cells}`);
    assert.ok(values[0] > values[4], name);
  }
  const days = await page.locator(".paper table").nth(1).locator("tbody tr").allInnerTexts();
  assert.equal(days.length, 7);
  assert.ok(days[0].startsWith("Thu 9 July"), days[0]);
  assert.ok(days.some((day) => /Feed: 40 ml in a can of 2 gallons/.test(day)), `${days}`);
  assert.ok(days.some((day) => /Whitefly: Shake and vacuum/.test(day)), `${days}`);

  await sheet(page, "whole-season");
  const text = await page.locator(".paper").innerText();
  assert.match(text, /Lean-to\s+1\s+[\d¼½¾]+ pints?\s+0\.\d/);
  assert.match(text, /8 July\s+Whitefly: Shake and vacuum/);
  assert.equal(await page.locator(".paper figure svg").count(), 2, "a picture for each group");
  const shown = Number(await page.locator("#answer-season-water").getAttribute("value"));
  await frame.goTo("Notebook");
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Save the season as a table" }).click();
  const table = await readFile(await (await download).path(), "utf8");
  const given = table.split("\r\n").filter((row) => row.includes('"Lean-to"')).map((row) => Number(row.split(",")[2]));
  const sum = given.reduce((sum, litres) => sum + litres, 0);
  assert.ok(Math.abs(sum - shown) < 0.06, `${sum} and ${shown}`);
  await frame.goTo("Morning water");
  assert.ok((await water.dose()) > 0);
});

cleanJourney("what was noted of a group that is removed stays on the season's page", { day: "2026-06-19T07:40:00" }, async (visit) => {
  const { page, frame, water } = visit;
  await grow(visit);
  await sheet(page, "whole-season");
  /** Its rows, whatever they stand under: the name, and what is in the columns after it. */
  const rows = () =>
    page.locator(".paper tbody tr").evaluateAll((rows) => rows.map((row) => [...row.cells].map((cell) => cell.innerText.trim())));
  const of = (rows, name) => rows.filter(([first]) => first === name);
  const before = await rows();
  assert.equal(of(before, "Lean-to").length, 2, "fed and felt");
  const pictures = page.locator(".paper figure svg");
  assert.equal(await pictures.count(), 2);

  await frame.goTo("Morning water");
  assert.deepEqual(await water.groups(), ["Lean-to", "Outdoors"]);
  await water.press("group", "0");
  await page.getByRole("button", { name: "Remove it", exact: true }).click();
  assert.match(await page.locator("#removed").innerText(), /^Lean-to was removed\s+What was noted of them stays on “The season so far”\.$/);
  await reload(page);
  await sheet(page, "whole-season");
  assert.equal(await pictures.count(), 1, "it is worked out no more");
  const section = page.locator(".paper section", { hasText: "Plants that are gone" });
  assert.equal(await section.locator("tbody tr").count(), 1);
  const after = await rows();
  const [gone, ...others] = of(after, "Lean-to");
  assert.match(gone.join(" | "), /^Lean-to \| 12 \| [\d¼½¾]+ pints \| 19 days$/);
  assert.deepEqual(others, of(before, "Lean-to"), "feed and feels stand as before");
  assert.deepEqual(of(after, "Outdoors"), of(before, "Outdoors"));
});

cleanJourney("on a wide sheet what stands beside the rest is printed whole", { viewport: { width: 1280, height: 500 } }, async ({ page }) => {
  const desk = () =>
    page.locator(".desk").evaluate((desk) => {
      const { position, overflowY } = getComputedStyle(desk);
      return { position, overflowY, isWhole: desk.scrollHeight <= desk.clientHeight };
    });
  assert.deepEqual(await desk(), { position: "sticky", overflowY: "auto", isWhole: false }, "on the screen it scrolls by itself");
  await page.emulateMedia({ media: "print" });
  assert.deepEqual(await desk(), { position: "static", overflowY: "visible", isWhole: true });
});
