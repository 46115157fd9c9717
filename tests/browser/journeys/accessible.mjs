// Everyone can read and reach it: the automatic rules, in every state, at each width, by day and at dusk.
import assert from "node:assert/strict";

import { brokenRules } from "../support/axe.mjs";
import { journey } from "../support/journey.mjs";
import { STATES, reached } from "../support/states.mjs";

const SIZES = [
  { width: 320, height: 844 },
  { width: 390, height: 844 },
  { width: 1280, height: 900 },
];

for (const state of STATES) {
  journey(`no rule is broken: ${state.name}`, { day: state.day, bypassPolicy: true }, async (context) => {
    const { page } = await reached(context, state);
    const faults = [];
    for (const viewport of SIZES) {
      await page.setViewportSize(viewport);
      for (const colorScheme of ["light", "dark"]) {
        await page.emulateMedia({ colorScheme });
        for (const fault of await brokenRules(page)) faults.push(`${viewport.width} ${colorScheme}: ${fault}`);
      }
    }
    assert.deepEqual(faults, []);
  });
}
