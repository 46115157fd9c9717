// A person's visit to the page: a browser profile of its own, on a fixed day, watched from before the page opens.
import { FeedMix } from "../pages/feed-mix.mjs";
import { Frame } from "../pages/frame.mjs";
import { MorningWater } from "../pages/morning-water.mjs";
import { Notebook } from "../pages/notebook.mjs";
import { address } from "./browser.mjs";
import { waitsForPaint } from "./patience.mjs";
import { watch } from "./watch.mjs";

export const PHONE = { width: 390, height: 844 };

/** A July morning: inside the season that the sum was tried in. */
const DAY = "2026-07-15T08:00:00";

/** The key of the kept notebook in the browser's storage. */
export const NOTEBOOK_KEY = "first-truss.notebook";

/**
 * Opens a profile. `day` is the local time that the page is told; `bypassPolicy` lets a test bring scripts of its own. With
 * `realTimers` only the date stands still: playwright's own clock counts its timers from a number so high that a program
 * cannot call one off.
 */
export async function profile(
  browser,
  { viewport = PHONE, colorScheme = "light", day = DAY, bypassPolicy = false, reducedMotion = "reduce", realTimers = false, device = {} } = {},
) {
  const context = await browser.newContext({
    viewport,
    colorScheme,
    locale: "en-GB",
    timezoneId: "Europe/London",
    reducedMotion,
    bypassCSP: bypassPolicy,
    ...device,
  });
  context.on("page", waitsForPaint);
  if (realTimers) await context.addInitScript(stopDate, day);
  else await context.clock.setFixedTime(new Date(day));
  await context.addInitScript(() => {
    window.addEventListener("TrunkApplicationStarted", () => {
      window.firstTrussStarted = true;
    });
  });
  return context;
}

/**
 * Opens the page in a new tab of `context` and waits for the program; `fragment` leads to another screen. The page is the
 * task runner's unless a test has a host of its own `at` another address.
 */
export async function open(context, fragment = "", at = address) {
  const page = await context.newPage();
  const watched = await watch(page, at);
  const response = await page.goto(at + fragment, { waitUntil: "load" });
  await started(page);
  return { page, watched, response, frame: new Frame(page), water: new MorningWater(page), feed: new FeedMix(page), notebook: new Notebook(page) };
}

/** Reloads and waits for the program. */
export async function reload(page) {
  await page.reload({ waitUntil: "load" });
  await started(page);
}

/** Comes back on another morning, `day` as for a profile. */
export async function comeBack(page, day) {
  await page.context().clock.setFixedTime(new Date(day));
  await reload(page);
}

/** The loader says so once the program has run, and the program takes the static shell away. Then the rest of it comes. */
export async function started(page) {
  await answers(page);
  await page.waitForFunction(() => !document.querySelector("#main[aria-busy]"), null, { timeout: 20_000 });
}

/** Waits for no more than the first answer needs. */
export async function answers(page) {
  await page.waitForFunction(() => window.firstTrussStarted && !document.getElementById("shell"), null, {
    timeout: 20_000,
  });
}

/** In the page: the date stands still, and its timers do not. */
export function stopDate(day) {
  const now = new Date(day).getTime();
  window.Date = class extends Date {
    constructor(...parts) {
      super(...(parts.length > 0 ? parts : [now]));
    }
    static now() {
      return now;
    }
  };
}
