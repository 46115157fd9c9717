// A page that stands still, in a face of the tests' own, and its pictures at every size.
import { readFile } from "node:fs/promises";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

const WIDTHS = [320, 390, 768, 1280];
const HEIGHT = { 320: 844, 390: 844, 768: 1024, 1280: 900 };
/** The widths of A4 and A5 between margins of 12 mm, in CSS pixels. */
const PAPERS = { a4: 703, a5: 469 };
/** Round a part that is pictured, in pixels. */
const ROOM = 8;
/** Milliseconds without a change after which a page stands still. */
const QUIET = 250;

/** Which of the face's files is for which characters: its Latin letters, and signs such as an arrow. */
const SUBSETS = ["latin", "latin-ext", "math", "symbols"];
let face;

/** Rules by which text is set in the face of the tests: what is installed on the device is of no account. */
async function rules() {
  const folder = dirname(createRequire(import.meta.url).resolve("@fontsource-variable/roboto"));
  const sheet = await readFile(join(folder, "index.css"), "utf8");
  const faces = await Promise.all(
    SUBSETS.map(async (subset) => {
      const bytes = await readFile(join(folder, "files", `roboto-${subset}-wght-normal.woff2`));
      const range = sheet.slice(sheet.indexOf(`roboto-${subset}-wght-normal`)).match(/unicode-range: ([^;]+);/)[1];
      return `@font-face { font-family: "Sight"; font-weight: 100 900; src: url(data:font/woff2;base64,${bytes.toString("base64")}); unicode-range: ${range} }`;
    }),
  );
  return `${faces.join("\n")}
    :root { --text: "Sight" !important; --num: "Plot Numerals", "Sight" !important }
    * { caret-color: transparent !important }`;
}

/** Takes the pictures of a state, one after the other; `keep` gets the name and the bytes of each. */
export async function takeSight(page, { name, of, most, paper }, keep) {
  face ??= rules();
  await page.addStyleTag({ content: (await face) + (of === "window" ? "" : UNSTUCK) });
  await page.evaluate(() => document.activeElement?.blur());
  await page.mouse.move(0, 0);
  await stand(page);
  if (Array.isArray(of)) await page.evaluate(leave, of);
  if (paper) {
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    for (const [sheet, width] of Object.entries(PAPERS)) await keep(`${name}-${sheet}`, await taken(page, width, 900, undefined, most));
    return;
  }
  for (const width of WIDTHS) {
    for (const colorScheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme });
      await keep(`${name}-${width}-${colorScheme}`, await taken(page, width, HEIGHT[width], of, most));
    }
  }
}

/** Waits until nothing in the page changes any more, every face is there and what was laid out is painted. */
async function stand(page) {
  await page.evaluate(
    (quiet) =>
      new Promise((resolve) => {
        let timer;
        const begin = () => {
          clearTimeout(timer);
          timer = setTimeout(resolve, quiet);
        };
        new MutationObserver(begin).observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
        begin();
      }),
    QUIET,
  );
  await page.evaluate(async () => {
    await Promise.all([..."0½a→"].map((sign) => Promise.all([500, 800].map((weight) => document.fonts.load(`${weight} 16px "Sight"`, sign)))));
    await document.fonts.ready;
  });
}

/** In a window as tall as the page nothing has to stay in view: what would is laid out, and drawn, like the rest. */
const UNSTUCK = ".foot { position: relative !important } .desk { position: static !important; max-height: none !important; overflow: visible !important }";

/** Lays the page out and draws it from the beginning: what is left of another size or scheme would lie a quarter of a pixel off. */
async function anew(page) {
  await page.evaluate(() => {
    const { style } = document.documentElement;
    style.display = "none";
    document.documentElement.getBoundingClientRect();
    requestAnimationFrame(() => style.removeProperty("display"));
  });
  await painted(page);
}

/** A picture of the parts `of` or of the whole page, at most `most` pixels tall, in a window as tall as the page: nothing has to be scrolled. */
async function taken(page, width, height, of, most = Infinity) {
  await page.setViewportSize({ width, height });
  if (of === "window") {
    await anew(page);
    await page.evaluate(() => scrollTo(0, 0));
    await painted(page);
    return page.screenshot({ animations: "disabled" });
  }
  const tall = await page.evaluate(() => document.documentElement.scrollHeight);
  await page.setViewportSize({ width, height: Math.max(height, tall) });
  await anew(page);
  const clip = of ? await page.evaluate(boxOf, [of, ROOM]) : { x: 0, y: 0, width, height: Math.max(height, tall) };
  clip.height = Math.min(clip.height, most);
  return page.screenshot({ animations: "disabled", clip });
}

/** In the page: hides what stands between `parts` and is none of them. */
function leave(parts) {
  for (const box of document.querySelectorAll(".desk > *, .leaves > *")) {
    const isPart = parts.some((part) => box.matches(part) || box.querySelector(part) || box.closest(part));
    if (!isPart) box.hidden = true;
  }
}

/** In the page: the box round what is shown of `parts`, in whole pixels. */
function boxOf([parts, room]) {
  const boxes = parts.flatMap((part) => {
    const found = [...document.querySelectorAll(part)].filter((element) => element.checkVisibility());
    if (found.length === 0) throw new Error(`nothing is shown of ${part}`);
    return found.map((element) => element.getBoundingClientRect());
  });
  const x = Math.max(0, Math.floor(Math.min(...boxes.map(({ left }) => left)) - room));
  const y = Math.max(0, Math.floor(Math.min(...boxes.map(({ top }) => top)) - room));
  const right = Math.min(innerWidth, Math.ceil(Math.max(...boxes.map(({ right }) => right)) + room));
  const bottom = Math.min(innerHeight, Math.ceil(Math.max(...boxes.map(({ bottom }) => bottom)) + room));
  return { x, y, width: right - x, height: bottom - y };
}

function painted(page) {
  const frames = "(resolve) => requestAnimationFrame(() => requestAnimationFrame(() => requestAnimationFrame(resolve)))";
  return page.evaluate(`new Promise(${frames})`);
}
