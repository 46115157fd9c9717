// Every screen in every state that a grower may meet, as steps of a person: what is checked for one is checked for all.
// States that show different things share a page, so that each is looked at once at every size.
import assert from "node:assert/strict";

import { PestRepeats } from "../pages/pest-repeats.mjs";
import { address } from "./browser.mjs";
import { BY_HAND_PHONE, offerToInstall } from "./installing.mjs";
import { NOTEBOOK_KEY, comeBack, open } from "./visit.mjs";

/** A plan and a list that came back, as `tests/links.rs` has them. */
export const PLAN =
  "s1.hA7m2L2zS3NPlot_14~18~_Marlpit_Lane.gCcH3ahqm-6F1J22suc-9kyo-lflsUkmds-31nk-8-~sf8NGrandfather~13~s_house.gC4A37T2935a-6K1OmJ24qki-1usw-f04gNWall.fA334ErsD10.tD4P0C0.1k1sg00";
export const REPLY = "a1.hP1k1sg00A7m2.dD2T3k.gWvl.tP0C0.0izbg58";

/** The parts of Morning water that are folded away. */
const FOLDED = ["fine-tune", "measured", "wilting", "butt-fields", "more-plants", "season-end", "away", "working"];

/** As long as a name may be. */
const LONG_NAME = "Grandmother's old lean-to by the kitchen";

/** Puts `text` where the notebook is kept, before the page opens. */
export function keptBefore(context, text) {
  return context.addInitScript(([key, text]) => localStorage.setItem(key, text), [NOTEBOOK_KEY, text]);
}

/** Refuses all storage, as a browser with everything blocked does. */
export function blockStorage(context) {
  return context.addInitScript(() => {
    Object.defineProperty(window, "localStorage", {
      get() {
        throw new DOMException("Access is denied for this document.", "SecurityError");
      },
    });
  });
}

/** Storage that takes nothing. */
export function fillStorage(context) {
  return context.addInitScript(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
    };
  });
}

async function keepDaysThenPot(visit) {
  await keepDays(visit);
  await visit.water.choose("container", "pot");
  await visit.page.locator("input[name=stood-so]").first().waitFor();
}

async function unfoldPests({ page }) {
  const pests = new PestRepeats(page);
  for (const part of ["numbers-table", "pest-warmth", "pest-working"]) await pests.unfold(part);
}

async function pressThenPests({ page, frame, water }) {
  await water.press("sky", "clear");
  assert.match(await frame.notice().innerText(), /kept/);
  await frame.goTo("Pest repeats");
  await page.locator("#question").waitFor();
}

async function unfoldAll({ water }) {
  for (const part of FOLDED) await water.unfold(part);
}

/** On another plot's card: the sky told, the water ticked, the weather's further fields and the working open. */
async function tickHalf({ page, water }) {
  await water.press("sky", "bright");
  await page.locator("#round .tick").filter({ hasText: "Water" }).first().click();
  for (const part of ["fine-tune", "working"]) await water.unfold(part);
}

/** Two feeds, a powder by the spoon, everything on the shelf with a bag that cannot be, a strong stock, lower leaves yellow between the veins. */
async function unfoldFeed({ page, feed }) {
  for (const part of ["feed-further", "brews", "bags", "as-stock", "working"]) await feed.unfold(part);
  await page.locator("#add-feed").click();
  await feed.fill("feed-name", LONG_NAME);
  await feed.press("feed-form", "powder");
  await feed.fill("feed-dose", "2 tbsp per gallon");
  await feed.press("feed-country", "uk");
  await feed.press("feed-water", "hard");
  await feed.leave();
  for (const salt of await page.locator('[name^="shelf-"], [name^="mixer-"]').all()) await salt.check({ force: true });
  await feed.fill("bag-urea", "46");
  await feed.fill("stock", "400");
  await feed.leave();
  await feed.press("sign-part", "lower");
  await feed.press("sign-look", "between-veins");
  await page.locator("#causes").waitFor();
}

/** What is kept after ten mornings: lived through once, and opened by whoever needs them again. */
let tenMornings;

/** Nine mornings that teach something, one of them left out, and one that is noted. */
async function liveTenMornings({ page, water }) {
  if (tenMornings) {
    await page.evaluate((kept) => Object.assign(localStorage, kept), tenMornings);
    await comeBack(page, "2026-07-10T07:40:00");
    return;
  }
  await water.fill("group-name", LONG_NAME, "more-plants");
  await water.leave();
  for (let day = 1; day <= 10; day += 1) {
    await comeBack(page, `2026-07-${String(day).padStart(2, "0")}T07:40:00`);
    await water.press("sky", "clear");
    await water.press("feel", "dry");
    if (day !== 6) await water.watered().click();
  }
  assert.match(await water.noted(), /^Watered at/);
  tenMornings = await page.evaluate(() => ({ ...localStorage }));
}

/** Ten mornings, with a day of the past to change. */
async function keepDays(visit) {
  const { page, water } = visit;
  await liveTenMornings(visit);
  await page.locator("#learnt").waitFor();
  await water.unfold("wilting");
  assert.equal((await water.days()).length, 11);
  await water.unfold("missed");
  await water.press("wilting", "all-day");
  await water.openDay(3);
  await water.press("day-feel", "sodden");
  await water.press("day-sky", "dark");
  await water.fill("given", "some");
  await water.leave();
  assert.deepEqual(await water.wrong(), ["given"]);
  assert.match(await water.noted(), /^Watered at/);
}

/** A page whose program never comes, with the message that then appears; its ten seconds are not waited for. */
async function withoutProgram(context) {
  const page = await context.newPage();
  await page.route("**/*.wasm", (route) => route.abort());
  await page.goto(address);
  await page.evaluate(() => document.getAnimations().forEach((animation) => animation.finish()));
  await page.locator("#cannot-start").waitFor({ state: "visible" });
  return { page };
}

/** A new version stands ready: shown as `src/browser/versions.js` does it, which `updates.mjs` proves. */
export function offerVersion({ page }) {
  return page.evaluate(() => {
    const bar = document.getElementById("new-version");
    bar.hidden = false;
    document.getElementById("said").textContent = bar.querySelector("p").textContent;
  });
}

/** What the offer to install says, and the same at the end of the Notebook; each button is large enough for a wet thumb. */
async function seeInstalling({ page }) {
  await page.locator("#install-hint").waitFor({ state: "visible" });
  await page.locator("#install-note").waitFor({ state: "visible" });
  for (const button of await page.locator("#install-hint button:visible, #install-note button:visible").all()) {
    const { width, height } = await button.boundingBox();
    assert.ok(width >= 44 && height >= 44, `${width} x ${height}`);
  }
}

/**
 * The states. `screen` is the address's fragment, `day` and `device` another day and device than usual; `before` prepares the profile, `reach` is
 * what the grower does, and `arrive` stands for opening the page where it does not open as usual.
 */
export const STATES = [
  { name: "Morning water, everything unfolded", screen: "#water", reach: unfoldAll },
  { name: "days drawn and listed, one to change, what was learnt, and today's water noted", screen: "#water", day: "2026-07-01T07:40:00", reach: keepDaysThenPot },
  {
    name: "entries that cannot be, and two that quarrel",
    screen: "#water",
    async reach(visit) {
      const { water } = visit;
      await unfoldAll(visit);
      await water.choose("container", "pot");
      const wrong = {
        "sunshine-hours": "abc",
        humidity: "140",
        warmest: "12",
        coolest: "20",
        height: "tall",
        trusses: "3.7.1",
        plants: "some",
        "pot-size": "-4",
        ground: "1e9",
        planted: "next week",
      };
      for (const [name, text] of Object.entries(wrong)) await water.fill(name, text);
      await water.leave();
      const marked = await water.wrong();
      // The quarrel is told at one of the two.
      const missing = Object.keys(wrong).filter((name) => name !== "warmest" && !marked.includes(name));
      assert.deepEqual(missing, [], "each is marked");
    },
  },
  {
    name: "several groups, sodden and dry, one outdoors with a long name",
    screen: "#water",
    async reach(visit) {
      const { water } = visit;
      await unfoldAll(visit);
      await water.press("sky", "clear");
      await water.press("feel", "sodden");
      await water.fill("group-name", LONG_NAME);
      await water.fill("plants", "24");
      await water.add();
      await water.choose("container", "pot");
      await water.add();
      await water.press("place", "outdoors");
      await water.press("feel", "dry");
      await water.leave();
    },
  },
  {
    name: "a butt that is too full and one day away too many, with their working",
    screen: "#water",
    async reach({ page, water }) {
      await water.fill("group-name", LONG_NAME, "more-plants");
      await water.fill("plants", "12");
      await water.unfold("butt-fields");
      const entries = { "butt-size": "44", "butt-level": "50", roof: "60" };
      for (const [name, text] of Object.entries(entries)) await water.fill(name, text);
      await page.locator("#answer-butt-days").waitFor();
      await water.press("sky", "clear");
      await water.fill("days-away", "61", "away");
      await page.locator("#hand-over").waitFor();
      for (const part of ["butt-season", "butt-working", "away-working"]) await water.unfold(part);
      await water.leave();
      assert.deepEqual(await water.wrong(), ["butt-level", "days-away"]);
    },
  },
  {
    name: "a day without sun, a group removed with the way back",
    screen: "#water",
    day: "2026-12-21T08:00:00",
    async reach({ frame, water, notebook }) {
      await frame.goTo("Notebook");
      await notebook.fill("latitude", "75");
      await frame.goTo("Morning water");
      await water.unfold("fine-tune");
      await water.fill("group-name", LONG_NAME, "more-plants");
      await water.copy();
      await water.remove();
    },
  },
  {
    name: "Morning water at first sight, with a notebook that is damaged",
    screen: "#water",
    before: (context) => keptBefore(context, "not a notebook"),
  },
  { name: "Feed mix, with storage that is blocked", screen: "#feed", before: blockStorage },
  { name: "Feed mix, everything unfolded, a shelf and a leaf that looks wrong", screen: "#feed", reach: unfoldFeed },
  {
    name: "Feed mix with words that cannot be read, and what was fed",
    screen: "#feed",
    async reach({ feed }) {
      await feed.fed().click();
      for (const [name, text] of Object.entries({ "feed-label": "60-60-60", "feed-dose": "a splash per can", "feed-each": "none" })) {
        await feed.fill(name, text);
      }
      await feed.leave();
      assert.deepEqual(await feed.wrong(), ["feed-label", "feed-dose", "feed-each"]);
      await feed.press("sign-part", "fruit");
      await feed.press("sign-look", "sunken-end");
    },
  },
  { name: "Pest repeats, with storage that is full", screen: "#water", before: fillStorage, reach: pressThenPests },
  { name: "Pest repeats at first sight, with its working and its table", screen: "#pests", reach: unfoldPests },
  {
    name: "Pest repeats with a label read in part, noted days, a plan, counts, and a second programme",
    screen: "#pests",
    async reach({ page }) {
      const pests = new PestRepeats(page);
      await pests.press("pest", "spider-mite");
      await pests.press("control", "contact-spray");
      await pests.readLabel({ least: "14", most: "2", picking: "21" });
      await page.getByRole("button", { name: "Find the fewest treatments" }).click();
      await page.locator("#answer-fewest").waitFor();
      await page.locator("#done-earlier").selectOption("7");
      await page.locator("#done-earlier").selectOption("14");
      await pests.treated().click();
      await page.getByRole("button", { name: "Undo" }).waitFor();
      await pests.fill("pest-count", "40");
      await page.getByRole("button", { name: "Note this count" }).click();
      await pests.fill("latest-use", "next week");
      await pests.fill("days-before-picking", "soon");
      await unfoldPests({ page });
      await pests.fill("pest-mean", "200");
      await page.getByRole("button", { name: "Another pest as well" }).click();
      await page.locator('label:has(> input[name="programme"][value="0"])').click();
      await page.locator("#question").focus();
    },
  },
  {
    name: "Pest repeats with two products, what fills the gap between, and counts on a card",
    screen: "#pests",
    async reach({ page }) {
      const pests = new PestRepeats(page);
      await pests.press("control", "contact-spray");
      await pests.readLabel({ least: "14", most: "2", picking: "1" });
      await page.locator('[name="add-product"]').selectOption("other-spray");
      await pests.readLabel({ least: "21", most: "2", picking: "14" });
      await page.locator('[name="product-name"]').fill("The green bottle that stands at the back of the shed");
      for (const beside of ["sticky-cards", "water-jet"]) await page.locator(`label:has(> #beside-${beside})`).click();
      await pests.treated().click();
      await pests.fill("pest-count", "40");
      await page.getByRole("button", { name: "Note this count" }).click();
      await page.locator("#question").focus();
    },
  },
  { name: "another plot's card, its round half ticked", screen: `#${PLAN}`, day: "2026-07-13T08:00:00", reach: tickHalf },
  { name: "a list that came back for a plan of another notebook", screen: `#${REPLY}` },
  { name: "a link that was cut on its way", screen: `#${PLAN.slice(0, -2)}` },
  { name: "the week on paper", screen: "#week" },
  {
    name: "the season on a page",
    screen: "#water",
    day: "2026-07-01T07:40:00",
    async reach(visit) {
      await keepDays(visit);
      await visit.page.evaluate(() => void (location.hash = "whole-season"));
      await visit.page.locator("#answer-season-water").waitFor();
    },
  },
  {
    name: "Notebook with a link made for whoever waters",
    screen: "#notebook",
    async reach({ page, notebook }) {
      await notebook.unfold("share");
      await notebook.fill("share-plot", "Plot 14, Marlpit Lane, second gate");
      await page.getByRole("button", { name: "Make the link" }).click();
      await page.locator(".square-code").waitFor();
      await page.getByRole("button", { name: "Copy the link" }).click();
    },
  },
  { name: "Notebook, with another version on offer", screen: "#notebook", reach: offerVersion },
  {
    name: "Notebook with a copy to be used or added",
    screen: "#notebook",
    async reach({ page, notebook }) {
      await notebook.fill("can", "3");
      await notebook.leave();
      const text = await page.evaluate((key) => localStorage.getItem(key), NOTEBOOK_KEY);
      await page.locator('[name="copy"]').setInputFiles({ name: "copy.txt", mimeType: "text/plain", buffer: Buffer.from(text) });
      await page.locator("#copy button").first().waitFor();
    },
  },
  {
    name: "Notebook with a file that is no copy",
    screen: "#notebook",
    async reach({ page }) {
      await page.locator('[name="copy"]').setInputFiles({ name: "copy.txt", mimeType: "text/plain", buffer: Buffer.from("nothing") });
      await page.locator("#copy .error-note").waitFor();
    },
  },
  {
    name: "Notebook with a text set aside and entries that cannot be",
    screen: "#notebook",
    before: (context) => keptBefore(context, "not a notebook"),
    async reach({ notebook }) {
      await notebook.fill("can", "none");
      await notebook.fill("latitude", "97");
      await notebook.leave();
      assert.deepEqual(await notebook.wrong(), ["can", "latitude"]);
    },
  },
  {
    name: "Morning water in other units, with another version on offer",
    screen: "#notebook",
    async reach(visit) {
      const { frame, notebook } = visit;
      await notebook.press("units", "us");
      await notebook.press("temperature-scale", "fahrenheit");
      await frame.goTo("Morning water");
      await offerVersion(visit);
    },
  },
  {
    name: "Notebook, with the offer to install",
    screen: "#notebook",
    async reach(visit) {
      assert.equal(await offerToInstall(visit.page), true);
      await seeInstalling(visit);
    },
  },
  { name: "Notebook, with how to install by hand", screen: "#notebook", device: BY_HAND_PHONE, reach: seeInstalling },
  { name: "a program that cannot start", arrive: withoutProgram },
  {
    name: "a program that has stopped",
    screen: "#water",
    // The panic hook does this and nothing else.
    reach: ({ page }) => page.evaluate(() => document.getElementById("stopped").removeAttribute("hidden")),
  },
];

/** Opens the page in `state`; `settings` as for a profile. The profile's end is the caller's. */
export async function reached(context, { screen, before, reach, arrive }) {
  if (arrive) return arrive(context);
  await before?.(context);
  const visit = await open(context, screen);
  await reach?.(visit);
  await visit.page.evaluate(() => document.fonts.ready);
  return visit;
}
