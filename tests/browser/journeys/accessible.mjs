// Everyone can read and reach it: every state of every screen keeps the automatic rules by day and at dusk, and has room for
// its words, also for larger and for wider ones.
import assert from "node:assert/strict";
import { readFile, readdir } from "node:fs/promises";
import { test } from "node:test";

import { brokenRules } from "../support/axe.mjs";
import { doubleText, misfits, spaceText } from "../support/fit.mjs";
import { journey } from "../support/journey.mjs";
import { STATES, reached } from "../support/states.mjs";

const WIDTHS = [320, 390, 1280];
/** Widths for which the layout has rules of its own, and a window of 1280 by 900 with everything twice as large. */
const FURTHER = [{ width: 360, height: 844 }, { width: 700, height: 844 }, { width: 640, height: 450 }];

const sized = (page, width) => page.setViewportSize({ width, height: width < 1000 ? 844 : 900 });

for (const state of STATES) {
  const { name, day, device } = state;
  journey(`readable and with room: ${name}`, { day, device, worker: false, bypassPolicy: true }, async (context) => {
    const { page } = await reached(context, state);
    const faults = [];
    const note = (where, found) => faults.push(...found.map((fault) => `${where}: ${fault}`));
    for (const width of WIDTHS) {
      await sized(page, width);
      note(`${width}`, await misfits(page));
      note(`${width} light`, await brokenRules(page));
      await page.emulateMedia({ colorScheme: "dark" });
      note(`${width} dark`, await brokenRules(page, { coloursAlone: true }));
      await page.emulateMedia({ colorScheme: "light" });
    }
    for (const size of FURTHER) {
      await page.setViewportSize(size);
      note(`${size.width}`, await misfits(page));
    }
    const spacing = await spaceText(page);
    for (const width of WIDTHS) {
      await sized(page, width);
      note(`${width} with spaced text`, await misfits(page, { lists: false }));
    }
    await spacing.evaluate((style) => style.remove());
    await doubleText(page);
    for (const width of WIDTHS) {
      await sized(page, width);
      note(`${width} with doubled text`, await misfits(page, { lists: false }));
    }
    assert.deepEqual(faults, []);
  });
}

test("day and dusk differ in colours alone", async () => {
  const styles = new URL("../../../style/", import.meta.url);
  const sheets = (await readdir(styles)).filter((name) => name.endsWith(".css"));
  assert.ok(sheets.length >= 3, `${sheets}`);
  for (const name of sheets) {
    const sheet = await readFile(new URL(name, styles), "utf8");
    const blocks = sheet.split(/@media screen and \(prefers-color-scheme: ?dark\)/).slice(1);
    assert.equal(blocks.length > 0, name === "tokens.css", name);
    for (const block of blocks) {
      const rules = block.slice(0, block.search(/^\}/m));
      const set = [...rules.matchAll(/^\s*([\w-]+):/gm)].map(([, property]) => property);
      assert.ok(set.length > 5);
      for (const property of set) assert.match(property, /^--|^color-scheme$/, name);
    }
  }
});
