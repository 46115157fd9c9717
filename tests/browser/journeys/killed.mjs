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

/** In the page: one tap after another on "more plants". What the stepper shows then, whose save is over, is told. */
function tapOn() {
  const more = document.querySelectorAll("#plants-here ~ button, .stepper:has(#plants-here) button");
  const plus = [...more].at(-1);
  const tap = () => {
    plus.click();
    console.log(`tapped ${document.querySelector("#plants-here").value}`);
    setTimeout(tap, Math.random() * 3);
  };
  tap();
}

/** What the stepper showed, if that is what the page says. */
function tapped(message) {
  const [, plants] = message.text().match(/^tapped (\d+)$/) ?? [];
  return plants && Number(plants);
}

journey(`${TABS} tabs that end in the middle of a save`, {}, async (context) => {
  let least = 0;
  for (let number = 0; tried < TABS; number += 1) {
    const page = await context.newPage();
    let told = 0;
    page.on("console", (message) => {
      told = tapped(message) ?? told;
    });
    await page.goto(address);
    await started(page);
    // What the tab before had kept.
    const found = Number(await page.locator("#plants-here").inputValue());
    assert.ok(found >= least, `tab ${number}: ${found} where ${least} were kept`);
    if (found > 900) {
      await page.evaluate((key) => localStorage.removeItem(key), NOTEBOOK_KEY);
      least = 0;
      await page.close();
      continue;
    }
    const session = await context.newCDPSession(page);
    const ended = new Promise((resolve) => page.once("crash", resolve));
    const saved = page.waitForEvent("console", (message) => tapped(message) > found);
    await page.evaluate(tapOn);
    await saved;
    await new Promise((resolve) => setTimeout(resolve, TAPPING * random()));
    session.send("Page.crash").catch(() => {});
    await ended;
    await page.close();
    const next = await context.newPage();
    await next.goto(address);
    await started(next);
    assert.equal(await next.locator("#notice .notice").count(), 0, `tab ${number}: what is kept opens`);
    const kept = Number(await next.locator("#plants-here").inputValue());
    // What is told was saved before; what was tapped last may be saved and not told any more.
    assert.ok(kept >= told && kept <= 999, `tab ${number}: ${kept} kept of ${told} told`);
    const texts = await next.evaluate(() => Object.keys(localStorage).filter((key) => key.includes("set-aside")));
    assert.deepEqual(texts, [], `tab ${number}: nothing was set aside`);
    await next.close();
    least = kept;
    tried += 1;
  }
});
