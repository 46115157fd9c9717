// Everyone can read and reach it: the automatic rules, at each size, by day and at dusk, and without sideways scrolling.
import assert from "node:assert/strict";
import { createRequire } from "node:module";

import { journey } from "../support/journey.mjs";
import { open } from "../support/visit.mjs";

const axe = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

/** Off by default, though a wet thumb and the sun need both. */
const RULES = { "target-size": { enabled: true }, "color-contrast-enhanced": { enabled: true } };

const SCREENS = ["#water", "#feed", "#pests", "#notebook"];
const SIZES = [
  { width: 320, height: 844 },
  { width: 390, height: 844 },
  { width: 1280, height: 900 },
];

for (const viewport of SIZES) {
  for (const colorScheme of ["light", "dark"]) {
    const settings = { viewport, colorScheme, bypassPolicy: true };
    journey(`every screen is accessible, ${viewport.width} wide, ${colorScheme}`, settings, async (context) => {
      const faults = [];
      for (const screen of SCREENS) {
        const { page, water } = await open(context, screen);
        if (screen === "#water") {
          for (const part of ["fine-tune", "more-plants", "working"]) await water.unfold(part);
          await water.typeSlowly("sunshine-hours", "abc");
        }
        await page.addScriptTag({ path: axe });
        const { violations, passes } = await page.evaluate((rules) => window.axe.run({ rules }), RULES);
        const checked = passes.map(({ id }) => id);
        for (const rule of Object.keys(RULES)) assert.ok(checked.includes(rule), `${rule} was checked on ${screen}`);
        for (const { id, nodes } of violations) {
          for (const { target, failureSummary } of nodes) {
            faults.push(`${screen} ${id} ${target}: ${failureSummary.replaceAll(/\s+/g, " ")}`);
          }
        }
        const width = await page.evaluate(() => document.documentElement.scrollWidth);
        if (width > viewport.width) faults.push(`${screen} is ${width} wide`);
        await page.close();
      }
      assert.deepEqual(faults, []);
    });
  }
}
