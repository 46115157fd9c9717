// The ways about the page: every link leads somewhere, on its own screen or another, and a tab leads to the top of its screen.
import assert from "node:assert/strict";

import { Frame } from "../pages/frame.mjs";
import { cleanJourney } from "../support/journey.mjs";

const SCREENS = [
  ["#water", "Morning water"],
  ["#feed", "Feed mix"],
  ["#pests", "Pest repeats"],
  ["#notebook", "Notebook"],
];
/** The addresses of screens, which are no places. */
const ROUTES = ["#water", "#feed", "#pests", "#notebook", "#week", "#whole-season"];
const DAY = { day: "2026-07-09T08:00:00" };

const title = (page) => page.title().then((words) => words.replace(" - First Truss", ""));

for (const [fragment, name] of SCREENS) {
  cleanJourney(`every link of ${name} leads where it says`, { ...DAY, fragment }, async ({ page }) => {
    // What is folded away has links too.
    for (const summary of await page.locator("main details:not([open]) > summary").all()) await summary.click();
    const links = page.locator('main a[href^="#"]:not(.skip)');
    await links.first().waitFor();
    const hrefs = await links.evaluateAll((links) => [...new Set(links.map((link) => link.getAttribute("href")))]);
    assert.ok(hrefs.length > 0);
    for (const href of hrefs) {
      await page.evaluate((fragment) => (location.hash = fragment), fragment);
      await page.waitForFunction((name) => document.title.startsWith(name), name);
      await page.locator(`main a[href="${href}"]`).first().click();
      if (ROUTES.includes(href)) {
        await page.waitForFunction((href) => location.hash === href, href);
        continue;
      }
      const place = page.locator(href);
      await place.waitFor({ state: "attached" });
      await page.waitForFunction((href) => document.querySelector(href).getBoundingClientRect().top < innerHeight, href);
      const here = await title(page);
      const leadsAway = name === "Morning water" && href === "#signs";
      assert.equal(here, leadsAway ? "Feed mix" : name, href);
    }
  });
}

cleanJourney("a tap on the tab of a screen leads back to its top and its question", DAY, async ({ page }) => {
  const frame = new Frame(page);
  for (const name of ["Morning water", "Feed mix", "Pest repeats"]) {
    await frame.goTo(name);
    await page.waitForFunction(() => document.body.scrollHeight > innerHeight * 2);
    await page.evaluate(() => scrollTo(0, 1200));
    await page.waitForFunction(() => scrollY > 800);
    await page.locator(".tabs a", { hasText: name }).click();
    await page.waitForFunction(() => scrollY === 0 && document.activeElement?.id === "question");
    assert.equal(await title(page), name);
  }
  // From the plants there is a way back to the answer as well.
  await frame.goTo("Morning water");
  await page.getByRole("link", { name: "See today’s water" }).click();
  await page.waitForFunction(() => scrollY === 0 && document.activeElement?.id === "question");
});
