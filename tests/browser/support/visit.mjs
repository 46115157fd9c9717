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
 * Opens a profile. `day` is the time that the page is told; `bypassPolicy` lets a test bring scripts of its own; without `worker` the browser
 * has none to offer, so a visit that has nothing to do with it does not fill its cache.
 */
export async function profile(
  browser,
  { viewport = PHONE, colorScheme = "light", day = DAY, bypassPolicy = false, reducedMotion = "reduce", worker = true, device = {} } = {},
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
  await setDay(context, day);
  if (!worker) await context.addInitScript(() => Object.defineProperty(navigator, "serviceWorker", { value: undefined }));
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
  await setDay(page.context(), day);
  await reload(page);
}

/** Sets the clock of every page of `context`, open or to come, to `day`, where it stands still. */
export async function setDay(context, day) {
  const now = new Date(day).getTime();
  await context.addInitScript(stopDate, now);
  await Promise.all(context.pages().map((page) => page.evaluate(stopDate, now)));
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

/**
 * In the page: the date stands still at `now`, in milliseconds, and the timers do not. Playwright's own clock counts its timers from
 * a number so high that a program cannot call one off.
 */
export function stopDate(now) {
  window.Date = class extends Date {
    constructor(...parts) {
      super(...(parts.length > 0 ? parts : [now]));
    }
    static now() {
      return now;
    }
  };
}
