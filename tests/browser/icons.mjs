// Renders the icons from their drawings, and takes the two pictures that a browser shows when it offers to install the page.
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";

import { launch, required } from "./support/browser.mjs";
import { open, profile } from "./support/visit.mjs";

const folder = required("FIRST_TRUSS_SHOTS");

/** The maskable drawing fills its square, so it also serves where a transparent corner would turn black. */
const ICONS = [
  { drawing: "first-truss.svg", icon: "first-truss-192.png", side: 192 },
  { drawing: "first-truss.svg", icon: "first-truss-512.png", side: 512 },
  { drawing: "maskable.svg", icon: "maskable-512.png", side: 512 },
  { drawing: "maskable.svg", icon: "apple-touch-icon.png", side: 180 },
];
const PICTURES = [
  { name: "morning-water-narrow.png", viewport: { width: 390, height: 844 } },
  { name: "morning-water-wide.png", viewport: { width: 1280, height: 800 } },
];

await mkdir(join(folder, "pictures"), { recursive: true });
const browser = await launch();
try {
  for (const { drawing, icon, side } of ICONS) {
    const svg = await readFile(join(folder, "icons", drawing));
    const page = await browser.newPage({ viewport: { width: side, height: side } });
    await page.setContent(
      `<style>body{margin:0}img{display:block}</style><img width="${side}" height="${side}" src="data:image/svg+xml;base64,${svg.toString("base64")}">`,
    );
    await page.waitForFunction(() => document.images[0].complete);
    await keep(`icons/${icon}`, await page.screenshot({ omitBackground: true }));
    await page.close();
  }
  for (const { name, viewport } of PICTURES) {
    const context = await profile(browser, { viewport });
    const { page, water } = await open(context);
    await water.press("sky", "bright");
    await water.press("feel", "moist");
    await water.leave();
    await page.evaluate(() => document.fonts.ready);
    await keep(`pictures/${name}`, await page.screenshot());
    await context.close();
  }
} finally {
  await browser.close();
}

async function keep(name, bytes) {
  const path = join(folder, name);
  await writeFile(path, bytes);
  console.log(`${path}: ${bytes.length} bytes`);
}
