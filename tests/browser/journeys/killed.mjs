// A tab that ends in the middle of a save: what is kept is the notebook of one tap or of a later one, whole, and nothing is lost
// that the stepper showed; taps that were answered and not yet kept may be. A quick run ends twenty tabs, `cargo task prove` two
// hundred.
import assert from "node:assert/strict";
import { after } from "node:test";

import { address } from "../support/browser.mjs";
import { journey } from "../support/journey.mjs";
import { NOTEBOOK_KEY, started } from "../support/visit.mjs";

const TABS = process.env.FIRST_TRUSS_EVERY_FAULT ? 200 : 20;
/** Milliseconds of tapping after the first save, at most. */
const TAPPING = 300;

let tried = 0;
after(() => console.log(`faults tried: ${tried} tabs ended in the middle of a save`));

/** A share of one, the same in every run (a linear congruence, from memory). */
let state = 20_260_709;
const random = () => {
  state = (state * 1_664_525 + 1_013_904_223) % 2 ** 32;
  return state / 2 ** 32;
};

/** In the page: one tap after another on "more plants". What the stepper shows then, whose save is over, is told. `state` as above. */
function tapOn(state) {
  const more = document.querySelectorAll("#plants-here ~ button, .stepper:has(#plants-here) button");
  const plus = [...more].at(-1);
  const tap = () => {
    plus.click();
    console.log(`tapped ${document.querySelector("#plants-here").value}`);
    state = (state * 1_664_525 + 1_013_904_223) % 2 ** 32;
    setTimeout(tap, (state / 2 ** 32) * 3);
  };
  tap();
}

/** What the stepper showed, if that is what the page says. */
function tapped(message) {
  const [, plants] = message.text().match(/^tapped (\d+)$/) ?? [];
  return plants && Number(plants);
}

/** Opens a tab and sees to it that what is kept opens; `what` is said where it does not. */
async function opened(context, what) {
  const page = await context.newPage();
  await page.goto(address);
  await started(page);
  assert.equal(await page.locator("#notice .notice").count(), 0, `${what}: what is kept opens`);
  const texts = await page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes("set-aside")));
  assert.deepEqual(texts, [], `${what}: nothing was set aside`);
  return page;
}

const plants = async (page) => Number(await page.locator("#plants-here").inputValue());

/** Ends a tab while it saves tap after tap; returns the most that it told. */
async function endAmongTaps(page) {
  const found = await plants(page);
  let told = found;
  page.on("console", (message) => {
    told = tapped(message) ?? told;
  });
  const session = await page.context().newCDPSession(page);
  const ended = new Promise((resolve) => page.once("crash", resolve));
  const saved = page.waitForEvent("console", (message) => tapped(message) > found);
  await page.evaluate(tapOn, Math.floor(2 ** 32 * random()));
  await saved;
  await new Promise((resolve) => setTimeout(resolve, TAPPING * random()));
  session.send("Page.crash").catch(() => {});
  await ended;
  await page.close();
  return told;
}

journey(`${TABS} tabs that end in the middle of a save`, {}, async (context) => {
  let page = await opened(context, "at first");
  for (; tried < TABS; tried += 1) {
    if ((await plants(page)) > 900) {
      await page.evaluate((key) => localStorage.removeItem(key), NOTEBOOK_KEY);
      await page.close();
      page = await opened(context, "once more");
    }
    const what = `tab ${tried}`;
    const told = await endAmongTaps(page);
    page = await opened(context, what);
    const found = await plants(page);
    // What is told was saved before; what was tapped last may be saved and not told any more.
    assert.ok(found >= told && found <= 999, `${what}: ${found} kept of ${told} told`);
  }
});
