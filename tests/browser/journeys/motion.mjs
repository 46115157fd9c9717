// Whoever asks for less motion sees none.
import assert from "node:assert/strict";

import { journey } from "../support/journey.mjs";
import { open } from "../support/visit.mjs";

/** What moves during a busy morning: the animations and transitions that began, by what moved. */
async function moved(context) {
  await context.addInitScript(() => {
    window.moved = [];
    for (const kind of ["transitionrun", "animationstart"]) {
      addEventListener(kind, ({ target }) => window.moved.push(`${kind}: ${target.getAttribute("class")}`), true);
    }
  });
  const { page, water, frame, watched } = await open(context);
  await water.press("sky", "clear");
  await water.press("feel", "dry");
  await water.more("height");
  await water.copy();
  await water.unfold("working");
  await frame.goTo("Notebook");
  await frame.goTo("Morning water");
  await water.press("sky", "dark");
  await page.waitForTimeout(100);
  watched.assertClean();
  const running = await page.evaluate(() => document.getAnimations().length);
  const smooth = await page.evaluate(() => getComputedStyle(document.documentElement).scrollBehavior);
  return { seen: await page.evaluate(() => window.moved), running, smooth };
}

journey("with reduced motion nothing moves", { reducedMotion: "reduce" }, async (context) => {
  assert.deepEqual(await moved(context), { seen: [], running: 0, smooth: "auto" });
});

journey("without it the level in the jug rises", { reducedMotion: "no-preference" }, async (context) => {
  const { seen, smooth } = await moved(context);
  assert.ok(seen.includes("transitionrun: level"), `${seen}`);
  assert.equal(smooth, "auto");
});
