// Nothing moves when the program takes the place of the shell.
import assert from "node:assert/strict";

import { readFile } from "node:fs/promises";

import { address } from "../support/browser.mjs";
import { cleanJourney, journey } from "../support/journey.mjs";
import { keptBefore } from "../support/states.mjs";
import { answers, started } from "../support/visit.mjs";
import { heldProgram, heldRest, heldStyles } from "../support/weak-signal.mjs";

for (const width of [320, 390, 1280]) {
  journey(`nothing moves when the program arrives, ${width} wide`, { viewport: { width, height: 844 } }, async (context) => {
    const page = await context.newPage();
    await page.addInitScript(noteShifts);
    const letGo = await shellAlone(page);
    const before = await boxes(page);
    assert.equal(before.length, 8, "strip, tabs, plate, jug, figure, foot and two rows of keys are painted");
    letGo();
    await started(page);
    await page.waitForTimeout(300);
    assert.deepEqual(await boxes(page), before);
    assert.deepEqual(await page.evaluate(() => window.shifts), []);
  });
}

journey("the shell's links lead where the program's do", {}, async (context) => {
  const page = await context.newPage();
  const letGo = await shellAlone(page);
  const links = () =>
    page.evaluate(() => [...document.querySelectorAll(".strip a, .tabs a, .plate a")].map((link) => link.getAttribute("href")));
  const before = await links();
  assert.equal(before.length, 5, `${before}`);
  assert.equal(await page.locator("#shell a").count(), before.length, "no link to a place on the shell, which would take that of the address");
  letGo();
  await started(page);
  assert.deepEqual(await links(), before);
});

for (const width of [320, 390, 1280]) {
  journey(`the first answer is painted before the page is built, where the page has it, ${width} wide`, { viewport: { width, height: 844 } }, async (context) => {
    const page = await context.newPage();
    await page.addInitScript(`window.words = ${words}`);
    await page.addInitScript(noteFirstAnswer);
    const letGo = await shellAlone(page);
    letGo();
    await started(page);
    const first = await page.evaluate(() => window.firstAnswer);
    assert.match(first.join(), /likely/);
    assert.deepEqual(first, await page.evaluate(words));
  });
}

// On a morning whose answer takes a line more than the shell keeps free.
journey("a first answer of more lines moves nothing on the shell", { day: "2026-11-27T08:00:00" }, async (context) => {
  const page = await context.newPage();
  await page.addInitScript(noteShifts);
  await page.addInitScript(`window.words = ${words}`);
  await page.addInitScript(noteFirstAnswer);
  const letGo = await shellAlone(page);
  const before = await page.locator(".foot").boundingBox();
  letGo();
  await started(page);
  await page.waitForTimeout(300);
  assert.ok((await page.locator(".foot").boundingBox()).y > before.y, "the page has a line more");
  assert.match((await page.evaluate(() => window.firstAnswer)).join(), /likely/);
  assert.deepEqual(await page.evaluate(() => window.shifts), []);
});

journey("a key that is pressed between the first answer and the page counts", {}, async (context) => {
  const page = await context.newPage();
  await page.addInitScript(`window.words = ${words}`);
  await page.addInitScript(noteFirstAnswer, "clear");
  await page.goto(address);
  await started(page);
  assert.equal(await page.locator('input[name="sky"]:checked').getAttribute("value"), "clear");
  const first = await page.evaluate(() => window.firstAnswer);
  assert.notDeepEqual(first, await page.evaluate(words), "the answer follows it");
});

for (const width of [320, 390, 768, 1280]) {
  const setting = { viewport: { width, height: 700 }, day: "2026-07-12T07:40:00" };
  journey(`what stands there with the answer stays as it is when the styles of the rest come, ${width} wide`, setting, async (context) => {
    // Two groups, some mornings ago.
    await keptBefore(context, await readFile(new URL("../../kept/envelope-1.txt", import.meta.url), "utf8"));
    const page = await context.newPage();
    await heldRest(page);
    const letStylesGo = await heldStyles(page);
    await page.goto(address, { waitUntil: "commit" });
    await answers(page);
    await page.locator("#missed").waitFor();
    await page.evaluate(() => document.fonts.ready);
    const before = await allBoxes(page);
    assert.ok(before.length > 150, `${before.length}`);
    letStylesGo();
    await page.waitForFunction(() => document.getElementById("rest.css")?.sheet);
    assert.deepEqual(await allBoxes(page), before);
  });
}

cleanJourney("a tap and a typed number write the answer first, and the rest of the page when that is painted", {}, async ({ page, water }) => {
  await page.evaluate(noteWriting, "change");
  await water.press("sky", "clear");
  const [touched, after] = await page.evaluate(() => window.written);
  assert.equal(touched.row, after.row, "all words of the answer");
  assert.notEqual(touched.total, after.total, "the total follows");
  await page.evaluate(noteWriting, "input");
  await water.fill("height", "2");
  const [typed, last] = await page.evaluate(() => window.written);
  assert.notEqual(typed.row, after.row);
  assert.equal(typed.row, last.row);
  assert.equal(typed.total, after.total);
  assert.notEqual(last.total, after.total);
});

cleanJourney("the plate is as high as its rows in the frame that changes them", {}, async ({ page, water }) => {
  await page.evaluate(noteHeights);
  for (const height of ["1", "8", "2.5"]) await water.fill("height", height);
  await page.getByRole("button", { name: "Add a group" }).click();
  await page.setViewportSize({ width: 320, height: 844 });
  await water.fill("height", "7");
  await page.setViewportSize({ width: 1280, height: 844 });
  const { heights, low } = await page.evaluate(() => window.plate);
  assert.ok(new Set(heights).size >= 3, `${heights}`);
  assert.deepEqual(low, []);
});

// A small dose in millilitres takes a line more for its range than a larger one in pints.
cleanJourney("the plate keeps its height while a number is typed", { day: "2026-11-27T08:00:00" }, async ({ page, water }) => {
  const heights = async () => {
    await page.evaluate(() => new Promise((painted) => requestAnimationFrame(() => requestAnimationFrame(painted))));
    return page.evaluate(() => [".steady", ".doses"].map((part) => document.querySelector(part).getBoundingClientRect().height));
  };
  await water.press("sky", "clear");
  const [box, rows] = await heights();
  assert.ok(Math.abs(box - rows) < 0.05, `${box} ${rows}`);
  const typed = [];
  for (const height of ["1", "8"]) {
    await water.fill("height", height);
    typed.push(await heights());
  }
  assert.ok(typed[1][1] < rows - 1, `${rows}: ${typed}`);
  assert.deepEqual(typed.map(([kept]) => kept), [box, box]);
  await water.press("feel", "moist");
  const [fits, after] = await heights();
  assert.ok(after < rows - 1, `${rows} ${after}`);
  assert.ok(Math.abs(fits - after) < 0.05, `${fits} ${after}`);
});

/** Opens the page and waits until its shell is painted; gives what lets the program come. */
async function shellAlone(page) {
  const letGo = await heldProgram(page);
  await page.goto(address, { waitUntil: "commit" });
  await page.locator("#shell .keys-sec").last().waitFor();
  await page.evaluate(() => document.fonts.ready);
  return letGo;
}

/** In the page: notes how high the plate's rows are whenever that has changed, before it is painted, and when the box around them has no room for them. */
function noteHeights() {
  window.plate = { heights: [], low: [] };
  const rows = document.querySelector(".doses");
  new ResizeObserver(() => {
    const [box, height] = [rows.parentElement, rows].map((element) => element.getBoundingClientRect().height);
    window.plate.heights.push(height);
    if (box < height - 0.05 || box > height + 80) window.plate.low.push([box, height]);
  }).observe(rows);
}

/** In the page: notes the answer and the total in the next frame after `event`, before it is painted, and 100 ms later. */
function noteWriting(event) {
  const now = () => ({ row: document.querySelector(".say").innerText, total: document.getElementById("answer-total").value });
  window.written = new Promise((resolve) => {
    const note = () => requestAnimationFrame(() => {
      const first = now();
      setTimeout(() => resolve([first, now()]), 100);
    });
    addEventListener(event, note, { once: true });
  });
}

/** In the page: notes in `window.firstAnswer` what the shell's plate says once it has an answer, and then presses a key of the sky. */
function noteFirstAnswer(sky) {
  new MutationObserver((_, observer) => {
    if (!document.querySelector("#shell #answer-dose[value]")) return;
    observer.disconnect();
    requestAnimationFrame(() => {
      window.firstAnswer = window.words();
      if (sky) document.querySelector(`#shell input[value="${sky}"]`).click();
    });
  }).observe(document, { subtree: true, childList: true, attributes: true });
}

/** In the page: the words of the plate's first row, and where they stand. */
function words() {
  const parts = [".tag", ".say > small", ".figure .n", ".figure .u", ".figure small", ".sub", ".sub b", ".sub .opt"];
  return parts.map((part) => {
    const element = document.querySelector(`.dose ${part}`);
    const { left, top, width, height } = element.getBoundingClientRect();
    return `${part} ${element.innerText.trim()}: ${[left, top, width, height].map(Math.round)}`;
  });
}

/** Notes each element that stays and moves, as the browser itself counts it. */
function noteShifts() {
  window.shifts = [];
  new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) {
      const moved = entry.sources.map(({ node }) => node?.className || node?.nodeName);
      window.shifts.push(`${entry.value.toFixed(4)}: ${moved}`);
    }
  }).observe({ type: "layout-shift", buffered: true });
}

/** Where the parts of the screen are: the program replaces the shell's by its own, which the browser does not compare. */
function boxes(page) {
  return page.evaluate(() => {
    const parts = [".strip", ".tabs", ".plate", ".plate .jug", ".plate .figure", ".foot", ".keys-sec"];
    return parts.flatMap((part) =>
      [...document.querySelectorAll(part)].map((element) => {
        const { x, y, height } = element.getBoundingClientRect();
        return `${part} at ${Math.round(x)}, ${Math.round(y)}, ${Math.round(height)} high`;
      }),
    );
  });
}

/** Where each element is that is painted. */
function allBoxes(page) {
  return page.evaluate(() =>
    [...document.querySelectorAll(".page *")].map((element) => {
      const { x, y, width, height } = element.getBoundingClientRect();
      return `${element.tagName} ${element.getAttribute("class")}: ${[x, y, width, height].map(Math.round)}`;
    }),
  );
}
