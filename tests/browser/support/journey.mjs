// One browser for the tests of a file, and a clean end for each visit.
import { after, before, test } from "node:test";

import { launch } from "./browser.mjs";
import { open, profile } from "./visit.mjs";

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

/** A test in a profile of its own, which is closed whatever happens. */
export function journey(name, settings, steps) {
  test(name, async () => {
    const context = await profile(browser, settings);
    try {
      await steps(context);
    } finally {
      await context.close();
    }
  });
}

/** A journey that opens the page, and at whose end the page must have nothing to complain about. */
export function cleanJourney(name, settings, steps) {
  journey(name, settings, async (context) => {
    const visit = await open(context, settings.fragment);
    await steps(visit);
    visit.watched.assertClean();
  });
}
