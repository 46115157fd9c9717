// There is room for everything, at any width and with larger or wider text: nothing sideways, nothing cut, nothing covered.
import assert from "node:assert/strict";

import { doubleText, misfits, spaceText } from "../support/fit.mjs";
import { journey } from "../support/journey.mjs";
import { STATES, reached } from "../support/states.mjs";

/** Widths of phones, of a tablet and of a desk. */
const WIDTHS = [320, 360, 390, 700, 1280];
/** A window of 1280 × 900 with everything twice as large. */
const ZOOMED = { width: 640, height: 450 };

for (const state of STATES) {
  journey(`there is room: ${state.name}`, { day: state.day, bypassPolicy: true }, async (context) => {
    const { page } = await reached(context, state);
    const faults = [];
    const look = async (how, settings) => {
      for (const width of WIDTHS) {
        await page.setViewportSize({ width, height: 844 });
        for (const fault of await misfits(page, settings)) faults.push(`${width}, ${how}: ${fault}`);
      }
    };
    await look("usual");
    await page.setViewportSize(ZOOMED);
    for (const fault of await misfits(page)) faults.push(`zoomed: ${fault}`);

    const spacing = await spaceText(page);
    await look("spaced", { lists: false });
    await spacing.evaluate((style) => style.remove());
    await doubleText(page);
    await look("doubled", { lists: false });
    assert.deepEqual(faults, []);
  });
}
