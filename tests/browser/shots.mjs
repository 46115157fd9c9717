// Pictures of the page at each size, light and dark: the first screen and the whole length.
import { mkdir } from "node:fs/promises";
import { join } from "node:path";

import { address, launch, required } from "./support/browser.mjs";

const folder = required("FIRST_TRUSS_SHOTS");
const SIZES = [
  { width: 390, height: 844 },
  { width: 320, height: 844 },
  { width: 1280, height: 900 },
];

await mkdir(folder, { recursive: true });
const browser = await launch();
try {
  for (const viewport of SIZES) {
    for (const colorScheme of ["light", "dark"]) {
      const context = await browser.newContext({ viewport, colorScheme, reducedMotion: "reduce" });
      const page = await context.newPage();
      await page.goto(address, { waitUntil: "networkidle" });
      await page.evaluate(() => document.fonts.ready);
      const name = `${viewport.width}x${viewport.height}-${colorScheme}`;
      for (const [part, fullPage] of [["first-screen", false], ["whole", true]]) {
        const path = join(folder, `${name}-${part}.png`);
        await page.screenshot({ path, fullPage });
        console.log(path);
      }
      await context.close();
    }
  }
} finally {
  await browser.close();
}
