// The page in use: a morning's taps on a slow processor, then numbers typed on a slower one.
import { SLOW_PROCESSOR, SLOWER_PROCESSOR, phone, slowProcessor } from "./conditions.mjs";
import { answered } from "./visit.mjs";
import { timeKeystrokes, watchPage } from "./watcher.mjs";

/** Where a drawn key is tapped. */
export const key = (name, value) => `label:has(> input[name="${name}"][value="${value}"])`;

/** What a grower does, and where it is tapped. */
export const TAPS = [
  ["sky, clear", key("sky", "clear")],
  ["sky, dark", key("sky", "dark")],
  ["sky, dull", key("sky", "dull")],
  ["sky, bright", key("sky", "bright")],
  ["compost, dry", key("feel", "dry")],
  ["compost, sodden", key("feel", "sodden")],
  ["compost, moist", key("feel", "moist")],
  ["the weather's further fields", "#fine-tune > summary"],
  ["the plants' further fields", "#more-plants > summary"],
  ["the working", "#working > summary"],
  ["sky, clear, with the working", key("sky", "clear")],
  ["the working, away", "#working > summary"],
  ["feed mix", 'nav a[href="#feed"]'],
  ["pest repeats", 'nav a[href="#pests"]'],
  ["the notebook", 'header a[href="#notebook"]'],
  ["metric", key("units", "metric")],
  ["imperial", key("units", "imperial")],
  ["morning water", 'nav a[href="#water"]'],
];

/** Heights in feet, each typed and rubbed out again, so that nearly every key makes another answer. */
const TYPED = ["1", "6", "1", "7", "1", "8", "1", "6", "1", "7", "1", "8"];
/** Of the 24 keys pressed, so many must change the answer: at some seasons the rounded dose may stay. */
const FEWEST_TIMED = 20;

/** Time for what a tap set off to be over, and for the browser to tell of a long task. */
const AFTER_TAP = 300;
const AFTER_KEY = 200;

/** The use of `url` by one grower: the longest task of each of `taps`, the time of each keystroke, and the memory in bytes. */
export async function handle(browser, url, taps) {
  const context = await phone(browser);
  try {
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await page.addInitScript(watchPage);
    await page.goto(url, { waitUntil: "networkidle" });
    await answered(session);
    await slowProcessor(session, SLOW_PROCESSOR);
    const tapped = [];
    for (const [what, where] of taps) tapped.push({ what, longest: await longestTask(page, where) });
    await slowProcessor(session, SLOWER_PROCESSOR);
    const keystrokes = await typed(page);
    await slowProcessor(session, 1);
    return { taps: tapped, keystrokes, memory: await memory(page, session) };
  } finally {
    await context.close();
  }
}

/** Taps the middle of an element; milliseconds of the longest task that followed, 0 when none took 50. */
async function longestTask(page, where) {
  // Not through a locator: what that runs in the page would count as the page's own work.
  const middle = await page.evaluate((where) => {
    const element = document.querySelector(where);
    if (!element) return null;
    element.scrollIntoView({ block: "center" });
    const { left, top, width, height } = element.getBoundingClientRect();
    return { x: left + width / 2, y: top + height / 2 };
  }, where);
  if (!middle) throw new Error(`There is no ${where} to tap.`);
  await page.waitForTimeout(AFTER_TAP);
  const start = await page.evaluate(() => performance.now());
  await page.mouse.click(middle.x, middle.y);
  await page.waitForTimeout(AFTER_TAP);
  return page.evaluate((start) => {
    const tasks = window.firstTrussSeen.longTasks.filter(({ startTime }) => startTime >= start);
    return Math.max(0, ...tasks.map(({ duration }) => duration));
  }, start);
}

/** Milliseconds from each key pressed to the painted answer. */
async function typed(page) {
  await page.evaluate(timeKeystrokes);
  await page.evaluate(() => {
    const field = document.querySelector('[name="height"]');
    field.scrollIntoView({ block: "center" });
    field.focus();
  });
  await page.waitForTimeout(AFTER_TAP);
  for (const digit of TYPED) {
    for (const stroke of [digit, "Backspace"]) {
      await page.keyboard.press(stroke);
      await page.waitForTimeout(AFTER_KEY);
    }
  }
  const times = await page.evaluate(() => window.firstTrussKeystrokes);
  if (times.length < FEWEST_TIMED) throw new Error(`Only ${times.length} of the keys typed changed the answer.`);
  return times;
}

/** In bytes, after what nobody needs has been collected: the script's heap, and the program's memory if there is one. */
async function memory(page, session) {
  await session.send("HeapProfiler.collectGarbage");
  await session.send("Performance.enable");
  const { metrics } = await session.send("Performance.getMetrics");
  const heap = metrics.find(({ name }) => name === "JSHeapUsedSize").value;
  const program = await page.evaluate(() => window.firstTrussSeen.program?.memory.buffer.byteLength ?? null);
  return { heap, program };
}
