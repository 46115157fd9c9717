// What can go wrong on a device: nothing that was saved is lost, and the page says so in one line. How many faults were tried
// is printed at the end; `tests/faults.rs` tries every byte.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";
import { after } from "node:test";

import { cleanJourney } from "../support/journey.mjs";
import { NOTEBOOK_KEY, reload, setDay, started } from "../support/visit.mjs";

let tried = 0;
after(() => console.log(`faults tried: ${tried} in the browser`));

/** Other keys of the same origin, some of them very like the page's own. */
const FOREIGN = {
  "someone.settings": '{"theme":"dark"}',
  "first-truss": "another page's",
  "first-truss.notebook.": "\u0000½ \u{1F345}",
  "first-truss.notebook.set-aside": "none of the page's",
  "first-truss.notebook.set-aside.9": "",
};

const kept = (page) => page.evaluate((key) => localStorage.getItem(key), NOTEBOOK_KEY);
const everythingKept = (page) => page.evaluate(() => ({ ...localStorage }));
const revision = (text) => Number(text.match(/^revision (\d+)$/m)[1]);

/** A plot with three groups, as a grower enters it. */
async function enter({ water, frame, notebook }) {
  await frame.goTo("Notebook");
  await notebook.fill("plot-name", "Marlpit Lane");
  await frame.goTo("Morning water");
  await water.press("sky", "clear");
  await water.fill("height", "4½");
  for (const [name, plants] of [["By the door", "3"], ["Ärger & <Söhne>", "12"]]) {
    await water.add();
    await water.fill("group-name", name, "more-plants");
    await water.fill("plants", plants);
  }
  await water.leave();
}

/** What the grower sees of it again. */
async function records({ page, water }) {
  const plants = [];
  for (const index of (await water.groups()).keys()) {
    await water.press("group", `${index}`);
    plants.push([await water.field("plants").inputValue(), await water.field("height").inputValue()]);
  }
  return { plot: await page.locator(".strip strong").innerText(), groups: await water.groups(), plants };
}

/** The one line over the screen that says that nothing is kept, with the way to a file. */
async function seeNotice({ page, frame }) {
  await frame.notice().locator(".notice").waitFor();
  assert.match(await frame.notice().innerText(), /Nothing can be kept .* save a copy to a file/);
  assert.equal(await page.locator(".error-note:visible").count(), 1, "in one line");
}

/** Follows that way, and gives what the file holds. */
async function savedFile({ page, frame }) {
  await frame.notice().getByRole("link", { name: "Save it to a file" }).click();
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: "Save a copy to a file" }).click(),
  ]);
  const text = await readFile(await download.path(), "utf8");
  await frame.goTo("Morning water");
  return text;
}

const seeNoNotice = ({ frame }) => frame.notice().locator(".notice").waitFor({ state: "detached" });

cleanJourney("damaged, cut and newer texts are set aside, and other keys stay as they are", {}, async (visit) => {
  const { page, water } = visit;
  await enter(visit);
  const whole = await kept(page);
  await page.evaluate((foreign) => Object.assign(localStorage, foreign), FOREIGN);
  const faults = [];
  // The same places in every run: the head of the text, its check, and steps through all the rest.
  for (let at = 0; at < whole.length; at += 1 + Math.floor(whole.length / 16)) {
    const changed = String.fromCharCode(whole.charCodeAt(at) ^ (1 << at % 5));
    faults.push(whole.slice(0, at) + changed + whole.slice(at + 1));
  }
  for (const share of [0.02, 0.4, 0.99]) faults.push(whole.slice(0, whole.length * share));
  faults.push(whole.replace("first-truss 1", "first-truss 2"), `${whole}\n`, whole + whole, "");
  for (const text of faults) {
    await page.evaluate(
      ([key, text]) => {
        for (const name of Object.keys(localStorage)) if (/^first-truss\.notebook\.(before|set-aside\.[0-3])$/.test(name)) localStorage.removeItem(name);
        localStorage.setItem(key, text);
      },
      [NOTEBOOK_KEY, text],
    );
    await reload(page);
    assert.match(await page.locator("#notice").innerText(), /set aside; nothing was thrown away/);
    assert.ok((await water.dose()) > 0);
    await water.press("sky", "dull");
    const there = await everythingKept(page);
    assert.equal(there[`${NOTEBOOK_KEY}.set-aside.0`], text);
    assert.notEqual(there[NOTEBOOK_KEY], text, "the new notebook is kept");
    for (const [key, value] of Object.entries(FOREIGN)) assert.equal(there[key], value, key);
    tried += 1;
  }
  assert.ok(faults.length >= 20);
});

/** In the page: lets `left` more writings through and refuses the rest, as a full device does; `null` lets all through. */
function limitWritings(left) {
  window.write ??= Storage.prototype.setItem;
  window.left = left;
  Storage.prototype.setItem = function (name, text) {
    if (window.left === 0) throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
    if (window.left !== null) window.left -= 1;
    return window.write.call(this, name, text);
  };
}

const room = (page, left) => page.evaluate(limitWritings, left);

for (const left of [0, 1]) {
  cleanJourney(`the device is full after ${left} writings of a save`, {}, async (visit) => {
    const { page, water } = visit;
    await enter(visit);
    // From the start of the visit, so that what was kept before is still to be kept beside it.
    await page.addInitScript(limitWritings, 0);
    await reload(page);
    const old = await kept(page);
    const before = await records(visit);
    await room(page, left);
    await water.press("sky", "dark");
    await seeNotice(visit);
    assert.equal(await page.evaluate(() => window.left), 0, "in the middle of the save");
    assert.equal(await kept(page), old, "the old text is whole");
    if (left === 1) assert.equal((await everythingKept(page))[`${NOTEBOOK_KEY}.before`], old);
    assert.match(await savedFile(visit), /^sky=dark$/m, "the file has what is on the screen");
    await room(page, null);
    await water.press("feel", "dry");
    await seeNoNotice(visit);
    await reload(page);
    assert.equal(await water.pressed("sky"), "dark");
    assert.deepEqual(await records(visit), before);
    tried += 1;
  });
}

cleanJourney("a tap in the moment in which the page is left or hidden is kept", {}, async (visit) => {
  const { page, water } = visit;
  const tapped = (sky) => document.querySelector(`input[name="sky"][value="${sky}"]`).click();
  // In one go: no frame is painted between the tap and what follows it.
  await Promise.all([page.waitForEvent("load"), page.evaluate(`(${tapped})("dark"); location.reload()`)]);
  await started(page);
  assert.equal(await water.pressed("sky"), "dark");
  const hidden = 'document.dispatchEvent(new Event("visibilitychange", { bubbles: true }))';
  assert.match(await page.evaluate(`(${tapped})("dull"); ${hidden}; localStorage.getItem("${NOTEBOOK_KEY}")`), /^sky=dull$/m);
  tried += 2;
});

cleanJourney("the device is full indeed", {}, async (visit) => {
  const { page, water } = visit;
  await enter(visit);
  await reload(page);
  const old = await kept(page);
  const before = await records(visit);
  // Another page of the same host takes all there is, to the last character.
  const filled = await page.evaluate(() => {
    let size = 1 << 23;
    let text = "";
    for (; size >= 1; size >>= 1) {
      try {
        localStorage.setItem("someone.hoard", text + "x".repeat(size));
        text += "x".repeat(size);
      } catch {}
    }
    return text.length;
  });
  assert.ok(filled > 4_000_000, `${filled}`);
  await water.fill("group-name", "A name that is longer than before", "more-plants");
  await seeNotice(visit);
  assert.equal(await kept(page), old);
  assert.match(await savedFile(visit), /^name=A name that is longer than before$/m);
  assert.equal(await page.evaluate(() => localStorage.getItem("someone.hoard").length), filled, "what is another's stays");
  await page.evaluate(() => localStorage.removeItem("someone.hoard"));
  await water.press("sky", "dull");
  await seeNoNotice(visit);
  await reload(page);
  const now = await records(visit);
  assert.ok(now.groups.includes("A name that is longer than before"));
  assert.deepEqual(now.plants, before.plants);
  tried += 1;
});

cleanJourney("the device does not say what it holds, for a whole visit and in the middle of one", {}, async (visit) => {
  const { page, water } = visit;
  await enter(visit);
  const old = await kept(page);
  const before = await records(visit);
  await page.addInitScript(() => {
    const read = Storage.prototype.getItem;
    window.keptBack = sessionStorage.keepBack === "yes";
    Storage.prototype.getItem = function (name) {
      if (window.keptBack) throw new DOMException("The operation is insecure.", "SecurityError");
      return read.call(this, name);
    };
  });
  await page.evaluate(() => (sessionStorage.keepBack = "yes"));
  await reload(page);
  await seeNotice(visit);
  assert.ok((await water.dose()) > 0, "the page works");
  await water.press("sky", "dark");
  const there = () => page.evaluate((key) => localStorage[key], NOTEBOOK_KEY);
  assert.equal(await there(), old, "what is not known is not written over");
  await page.evaluate(() => (sessionStorage.keepBack = "no"));
  await reload(page);
  assert.deepEqual(await records(visit), before);
  await seeNoNotice(visit);
  tried += 1;

  await page.evaluate(() => (window.keptBack = true));
  await water.press("sky", "dull");
  await seeNotice(visit);
  assert.equal(await there(), old);
  await page.evaluate(() => (window.keptBack = false));
  await water.press("feel", "moist");
  await seeNoNotice(visit);
  await reload(page);
  assert.equal(await water.pressed("sky"), "dull");
  assert.deepEqual(await records(visit), before);
  tried += 1;
});

cleanJourney("a hundred quick switches of screen while timers run", {}, async (visit) => {
  const { page, water, frame } = visit;
  await enter(visit);
  const before = await records(visit);
  // A button held down steps on by a timer, and the answer waits to be said by another.
  await page.locator("#plants-here ~ button").hover();
  await page.mouse.down();
  await page.waitForTimeout(600);
  const held = await water.field("plants").inputValue();
  assert.ok(Number(held) > 12, held);
  const screens = await page.evaluate(async () => {
    const seen = new Set();
    for (let count = 0; count < 100; count += 1) {
      const links = document.querySelectorAll(".tab, .strip-btn");
      links[(count * 3 + 1) % links.length].click();
      // Some come before the last screen is drawn, some in the middle of it, some after.
      await new Promise((resolve) => (count % 3 === 0 ? setTimeout(resolve, 8) : count % 3 === 1 ? requestAnimationFrame(resolve) : resolve()));
      seen.add(document.title);
    }
    return seen.size;
  });
  assert.equal(screens, 4);
  await page.mouse.up();
  await frame.goTo("Pest repeats");
  await page.waitForFunction(() => document.activeElement.id === "question");
  assert.equal(await page.title(), "Pest repeats - First Truss");
  assert.equal(await page.locator("h1").count(), 1, "one screen and no more");
  await frame.goTo("Morning water");
  await page.waitForFunction(() => document.activeElement.id === "question" && document.activeElement.textContent.startsWith("Each plant"));
  const text = await kept(page);
  await page.waitForTimeout(800);
  assert.equal(await kept(page), text, "no timer of a screen that has gone steps on");
  await reload(page);
  const now = await records(visit);
  assert.deepEqual([now.plot, now.groups], [before.plot, before.groups]);
  assert.deepEqual(now.plants.slice(0, 2), before.plants.slice(0, 2));
  tried += 100;
});

cleanJourney("the clock is set back a year, and right again", { day: "2026-07-15T08:00:00" }, async (visit) => {
  const { page, water } = visit;
  await enter(visit);
  const before = await records(visit);
  // On a later morning a height is an estimate from the day that it was told: of it only that it is there.
  const later = (records) => ({ ...records, plants: records.plants.map(([plants, height]) => [plants, height !== ""]) });
  let writings = revision(await kept(page));
  for (const day of ["2025-07-15T08:00:00", "2026-07-15T08:00:00", "1970-01-01T08:00:00", "2026-07-16T08:00:00"]) {
    await setDay(page.context(), day);
    // Once with the page open, as it comes back to the front, and once anew.
    await page.evaluate(() => window.dispatchEvent(new Event("focus")));
    assert.equal(await page.locator("#today").getAttribute("datetime"), day.slice(0, 10));
    const told = day > "2026-07-15T08:00:00" ? later : (records) => records;
    assert.deepEqual(told(await records(visit)), told(before), day);
    await reload(page);
    await water.press("sky", "bright");
    assert.deepEqual(told(await records(visit)), told(before), day);
    const now = revision(await kept(page));
    assert.ok(now > writings, "later writings have higher numbers, whatever the clock says");
    writings = now;
    tried += 1;
  }
});
