// Renders the icons from their drawings, and takes the two pictures that a browser shows when it offers to install the page.
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";

import { launch, required } from "./support/browser.mjs";
import { indexedPng } from "./support/indexed-png.mjs";
import { pixels } from "./support/pixels.mjs";
import { open, profile } from "./support/visit.mjs";

const folder = required("FIRST_TRUSS_SHOTS");

/** The maskable drawing fills its square, so it also serves where a transparent corner would turn black. */
const ICONS = [
  { drawing: "icon.svg", name: "icon-192.png", side: 192 },
  { drawing: "icon.svg", name: "icon-512.png", side: 512 },
  { drawing: "icon-maskable.svg", name: "icon-maskable-512.png", side: 512 },
  { drawing: "icon-maskable.svg", name: "apple-touch-icon.png", side: 180 },
];
const PICTURES = [
  { name: "morning-water-narrow.png", viewport: { width: 390, height: 844 } },
  { name: "morning-water-wide.png", viewport: { width: 1280, height: 800 } },
];

const browser = await launch();
try {
  const reader = await browser.newPage();
  for (const { drawing, name, side } of ICONS) {
    const svg = await readFile(join(folder, drawing));
    await keep(name, await pixels(reader, svg, "image/svg+xml", side));
  }
  for (const { name, viewport } of PICTURES) {
    const context = await profile(browser, { viewport });
    const { page, water } = await open(context);
    await water.press("sky", "bright");
    await water.press("feel", "moist");
    await water.leave();
    await page.evaluate(() => document.fonts.ready);
    await keep(name, await pixels(reader, await page.screenshot(), "image/png"));
    await context.close();
  }
} finally {
  await browser.close();
}

async function keep(name, { width, height, rgba }) {
  const bytes = indexedPng(width, height, rgba);
  const path = join(folder, "pictures", name);
  await writeFile(path, bytes);
  console.log(`${path}: ${bytes.length} bytes`);
}
