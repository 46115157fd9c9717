// The page with a notebook of five seasons and eight groups: how long it takes to open it, and to answer a tap.
import { NOTEBOOK_KEY } from "../support/visit.mjs";
import { SLOWER_PROCESSOR, phone, slowProcessor } from "./conditions.mjs";
import { key } from "./handling.mjs";
import { kept, watchPage } from "./watcher.mjs";

/** What is tapped: the sky changes the answer of every group, the feel that of one. */
const TAPS = [
  ["sky, clear", key("sky", "clear")],
  ["sky, dark", key("sky", "dark")],
  ["compost, dry", key("feel", "dry")],
  ["compost, sodden", key("feel", "sodden")],
  ["sky, bright", key("sky", "bright")],
];
/** Time for a tap's afterthoughts to be over. */
const AFTER_TAP = 1500;
/** Visits before: the first is sent by the server, from the second on the worker answers, and the browser keeps what it compiled of that. */
const VISITS_BEFORE = 2;
const LONGEST_WAIT = 30_000;
/** Time for both to be kept. */
const AFTER_VISIT = 5000;

/**
 * Opens `url` with the notebook `text` on the morning `end`, the processor slowed, in a browser that has opened it before, as it
 * must have for five seasons. Gives milliseconds from the first look into the storage to the painted answer of the first group and
 * to that of all, and from each tap to its painted frame.
 */
export async function fiveSeasons(browser, url, { text, end }) {
  const context = await phone(browser, `${end}T07:40:00`);
  try {
    await context.addInitScript(watchPage);
    await context.addInitScript(keepAndWatch, [NOTEBOOK_KEY, text]);
    for (let visit = 0; visit < VISITS_BEFORE; visit += 1) {
      const before = await context.newPage();
      await before.goto(url, { waitUntil: "networkidle" });
      await before.waitForTimeout(AFTER_VISIT);
      await before.close();
    }
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await slowProcessor(session, SLOWER_PROCESSOR);
    await page.goto(url, { waitUntil: "load" });
    if (!(await kept(session, "window.firstTrussWhole", LONGEST_WAIT))) throw new Error("Not all groups were answered.");
    const { opened, whole } = await page.evaluate(async () => ({
      opened: (await window.firstTrussSeen.answered) - window.firstTrussOpening,
      whole: (await window.firstTrussWhole) - window.firstTrussOpening,
    }));
    const groups = await page.locator('input[name="group"]').count();
    if (groups !== 8) throw new Error(`The notebook has ${groups} groups.`);
    const answers = new Set();
    const taps = [];
    for (const [what, where] of TAPS) {
      await page.waitForTimeout(AFTER_TAP);
      taps.push({ what, painted: await tap(page, where) });
      answers.add(await page.locator("#answer-dose").getAttribute("value"));
    }
    if (answers.size < 2) throw new Error("No tap changed the answer.");
    return { opened, whole, taps, copies: await copies(page, text) };
  } finally {
    await context.close();
  }
}

/** Opens the same notebook as a copy, adds it to what is there, and saves it: milliseconds to the painted frame of each. */
async function copies(page, text) {
  await page.evaluate(() => void (location.hash = "notebook"));
  await page.locator('[name="copy"]').waitFor({ state: "attached" });
  const done = [];
  /** Milliseconds from now until `selector` is there and painted. */
  const painted = (selector) =>
    page.evaluate(
      (selector) =>
        new Promise((resolve) => {
          const begun = performance.now();
          const look = () => (document.querySelector(selector) ? window.firstTrussAfterFrame((at) => resolve(at - begun)) : setTimeout(look, 1));
          look();
        }),
      selector,
    );
  await page.locator('[name="copy"]').setInputFiles({ name: "copy.txt", mimeType: "text/plain", buffer: Buffer.from(text) });
  done.push({ what: "looked at", painted: await painted("#copy .btn") });
  await page.waitForTimeout(AFTER_TAP);
  await page.evaluate(() => document.querySelector("#copy .btn:nth-child(2)").setAttribute("id", "add-copy"));
  done.push({ what: "added", painted: await tap(page, "#add-copy") });
  await page.waitForTimeout(AFTER_TAP);
  await page.evaluate(() => document.querySelector("#kept .btn").setAttribute("id", "save-copy"));
  const [took] = await Promise.all([tap(page, "#save-copy"), page.waitForEvent("download")]);
  done.push({ what: "saved", painted: took });
  return done;
}

/** In the page: puts the notebook into an empty storage, and notes when it is first looked at and when all groups are answered. */
function keepAndWatch([key, text]) {
  if (localStorage.getItem(key) === null) localStorage.setItem(key, text);
  window.firstTrussOpening = null;
  const getItem = Storage.prototype.getItem;
  Storage.prototype.getItem = function (name) {
    if (name === key) window.firstTrussOpening ??= performance.now();
    return getItem.call(this, name);
  };
  window.firstTrussWhole = window.firstTrussShown(() => document.getElementById("answer-dose-8"));
}

/** Taps the middle of an element; milliseconds from there to the frame that shows what it set off. */
async function tap(page, where) {
  const middle = await page.evaluate((where) => {
    const element = document.querySelector(where);
    element.scrollIntoView({ block: "center" });
    const { left, top, width, height } = element.getBoundingClientRect();
    window.firstTrussTapped = new Promise((resolve) => {
      const begun = ({ timeStamp }) => window.firstTrussAfterFrame((painted) => resolve(painted - timeStamp));
      addEventListener("click", begun, { capture: true, once: true });
    });
    return { x: left + width / 2, y: top + height / 2 };
  }, where);
  await page.mouse.click(middle.x, middle.y);
  return page.evaluate(() => window.firstTrussTapped);
}
