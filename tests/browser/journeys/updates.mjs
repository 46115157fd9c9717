// A new version never comes by surprise, and never by halves.
import assert from "node:assert/strict";
import { readFile, writeFile } from "node:fs/promises";

import { buildOf, firstVersion, laterVersion, programName, retire, sameNameVersion } from "../support/builds.mjs";
import { hostedJourney } from "../support/hosted.mjs";
import { reload, setDay, started } from "../support/visit.mjs";

const first = async () => ({ "/": await firstVersion() });

/** Counts the documents that a tab loads from now on. */
function countLoads(page) {
  const loads = { count: 0 };
  page.on("load", () => (loads.count += 1));
  return loads;
}

hostedJourney("two tabs turn to a new version together, once, and lose no text", first, async ({ host, visit }) => {
  const one = await visit();
  const other = await visit("#water");
  const [oldCache] = await one.versions.caches();
  const later = await laterVersion("2");
  host.folders.set("/", later);

  await one.water.typeSlowly("height", "5.");
  // No hand types in two tabs within the milliseconds in which a browser tells one of the other's text.
  await other.page.waitForFunction(() => Object.values(localStorage).some((text) => /=5\.$/m.test(text)));
  await other.water.unfold("fine-tune");
  await other.water.typeSlowly("warmest", "2");
  assert.equal(await one.versions.look(), "installed");
  await one.versions.offered();
  await other.versions.offered();
  assert.equal(await one.versions.version(), null, "the old version goes on until it is asked");
  assert.deepEqual((await one.versions.caches()).length, 2);

  const loads = [countLoads(one.page), countLoads(other.page)];
  await one.versions.accept();
  for (const { page } of [one, other]) {
    await page.waitForFunction(() => document.documentElement.dataset.version === "2");
    await started(page);
  }
  // Long enough for a second reload to show.
  await one.page.waitForTimeout(1500);
  assert.deepEqual(loads.map(({ count }) => count), [1, 1]);

  assert.equal(await one.water.field("height").inputValue(), "5.");
  await other.water.unfold("fine-tune");
  assert.equal(await other.water.field("warmest").inputValue(), "2");
  const [newCache, ...more] = await one.versions.caches();
  assert.deepEqual(more, [], "the old cache is gone");
  assert.notEqual(newCache, oldCache);
  assert.ok(newCache.endsWith(` ${await buildOf(later)}`), newCache);
  for (const { versions } of [one, other]) assert.equal(await versions.bar.isVisible(), false);
  await host.stop();
  await reload(one.page);
  assert.equal(await one.versions.version(), "2");
});

hostedJourney("the offer is quiet, large enough, told politely, and moves nothing", first, async ({ host, visit }) => {
  const { page, versions } = await visit();
  const places = () =>
    page.evaluate(() =>
      [...document.querySelectorAll(".strip, .tabs, h1, .plate, .keys-sec, .sec, details")].map((part) => {
        const { x, y, width } = part.getBoundingClientRect();
        return [part.className, x, y, width];
      }),
    );
  const before = await places();
  host.folders.set("/", await laterVersion("2"));
  assert.equal(await versions.look(), "installed");
  await versions.offered();
  assert.deepEqual(await places(), before);
  assert.match(await page.locator("#said[role=status]").textContent(), /new version/);
  const buttons = await versions.bar.getByRole("button").all();
  assert.equal(buttons.length, 2);
  for (const button of buttons) {
    const { width, height } = await button.boundingBox();
    assert.ok(width >= 44 && height >= 44, `${width} by ${height}`);
  }
  assert.equal(await page.evaluate(() => document.activeElement.tagName), "BODY", "the focus stays where it was");
  await versions.refuse();
  assert.equal(await page.locator("#said").textContent(), "");
});

hostedJourney("nothing is offered under a finger that is at work", first, async ({ host, visit }) => {
  const { page, versions } = await visit();
  host.folders.set("/", await laterVersion("2"));
  const press = () => page.mouse.click(200, 30);
  await press();
  const pressing = setInterval(press, 300);
  try {
    assert.equal(await versions.look(), "installed");
    await page.waitForTimeout(2000);
    assert.equal(await versions.bar.isVisible(), false);
  } finally {
    clearInterval(pressing);
  }
  await versions.offered();
});

hostedJourney("a version that is refused stays away, and the one in use goes on without signal", first, async ({ host, visit }) => {
  const one = await visit();
  const other = await visit();
  host.folders.set("/", await laterVersion("2"));
  assert.equal(await one.versions.look(), "installed");
  await one.versions.offered();
  await other.versions.offered();
  const loads = countLoads(one.page);
  await one.versions.refuse();
  await one.versions.bar.waitFor({ state: "hidden" });
  await other.versions.bar.waitFor({ state: "hidden" });
  assert.equal(loads.count, 0);
  await host.stop();
  for (let times = 0; times < 3; times += 1) {
    await reload(one.page);
    await one.water.press("sky", times % 2 ? "dark" : "clear");
    assert.equal(await one.versions.version(), null);
  }
  await one.page.waitForTimeout(2000);
  assert.equal(await one.versions.bar.isVisible(), false, "it is not offered again in this visit");

  // Another visit: the version still waits, and is offered anew.
  const again = await visit();
  await again.versions.offered();
  await again.page.keyboard.press("Tab");
  await again.page.locator("#new-version-now").focus();
  await again.page.keyboard.press("Escape");
  await again.versions.bar.waitFor({ state: "hidden" });
  assert.equal(await again.versions.version(), null);
});

/** The version on the host cannot be had whole. */
function spoilt(name, spoil) {
  hostedJourney(`${name}: the version in use stays whole and says nothing`, first, async ({ host, visit }) => {
    const { page, versions, water } = await visit();
    const [cache] = await versions.caches();
    const count = await versions.count(cache);
    const later = await laterVersion("2");
    host.folders.set("/", later);
    await spoil(host, later);
    assert.equal(await versions.look(), "redundant", "it does not come in");
    assert.deepEqual(await versions.caches(), [cache], "nothing of it is left");
    assert.equal(await versions.count(cache), count);
    await host.stop();
    await reload(page);
    await water.press("sky", "clear");
    assert.equal(await versions.version(), null);
    assert.equal(await versions.bar.isVisible(), false);
  });
}

spoilt("a file is missing", async (host, folder) => host.missing.add(`/${await programName(folder)}`));
spoilt("a file has other bytes than were sealed", async (host, folder) => {
  const file = `${folder}/plot-numerals.woff2`;
  const bytes = await readFile(file);
  bytes[bytes.length >> 1] ^= 1;
  await writeFile(file, bytes);
});
spoilt("the host dies half way", async (host, folder) => {
  host.breaksOff = `/${await programName(folder)}`;
});

hostedJourney("what did not come whole comes the next time", first, async ({ host, visit }) => {
  const { page, versions } = await visit();
  const later = await laterVersion("2");
  host.folders.set("/", later);
  host.missing.add("/plot-numerals.woff2");
  assert.equal(await versions.look(), "redundant");
  host.missing.clear();
  assert.equal(await versions.look(), "installed");
  await versions.offered();
  await Promise.all([page.waitForEvent("load"), versions.accept()]);
  await started(page);
  assert.equal(await versions.version(), "2");
});

hostedJourney("new bytes under an old name are noticed", first, async ({ host, visit }) => {
  const { page, versions, watched } = await visit();
  const before = host.folders.get("/");
  const later = await sameNameVersion();
  assert.equal(await programName(later), await programName(before));
  host.folders.set("/", later);
  const size = (page) => page.evaluate(async (program) => {
    const cache = await caches.open((await caches.keys())[0]);
    return (await (await cache.match(new URL(program, location))).arrayBuffer()).byteLength;
  }, program);
  const program = await programName(later);
  const old = await size(page);
  assert.equal(await versions.look(), "installed");
  await versions.offered();
  await Promise.all([page.waitForEvent("load"), versions.accept()]);
  await started(page);
  assert.equal((await versions.caches()).length, 1);
  assert.equal(await size(page), old + 7);
  watched.assertClean();
});

hostedJourney("a host that goes back to the version in use harms nothing", first, async ({ host, visit }) => {
  const { page, versions } = await visit();
  const now = host.folders.get("/");
  host.folders.set("/", await laterVersion("2"));
  assert.equal(await versions.look(), "installed");
  host.folders.set("/", now);
  host.missing.add("/plot-numerals.woff2"); // were it filled again, this would fail and empty it
  await versions.look();
  await host.stop();
  await reload(page);
  assert.equal(await versions.version(), null);
  assert.equal((await versions.count((await versions.caches())[0])) > 0, true);
});

hostedJourney("the page looks for a new version after a day, and not before", first, async ({ host, context, visit }) => {
  const { page } = await visit();
  const looks = () => host.requests.filter((path) => path === "/worker.js").length;
  /** How many there were, at least so many, once none has come for a second and a half. */
  const settledLooks = async (least) => {
    for (let wait = 0; wait < 150 && looks() < least; wait += 1) await page.waitForTimeout(100);
    for (let before = -1; before !== looks(); ) {
      before = looks();
      await page.waitForTimeout(1500);
    }
    return looks();
  };
  const comeBack = () => page.evaluate(() => document.dispatchEvent(new Event("visibilitychange")));
  // The first brings the worker in; the page's own, on a device that it knows nothing of, the browser makes seconds later.
  const before = await settledLooks(2);
  await setDay(context, "2026-07-16T07:00:00");
  await comeBack();
  assert.equal(await settledLooks(before), before, "within a day");
  await setDay(context, "2026-07-16T09:00:00");
  await comeBack();
  assert.equal(await settledLooks(before + 1), before + 1, "after a day");
  await comeBack();
  assert.equal(await settledLooks(before + 1), before + 1, "once");
  await setDay(context, "2025-07-16T09:00:00");
  await comeBack();
  assert.equal(await settledLooks(before + 2), before + 2, "after the clock was set back a year");
});

hostedJourney("the way out takes the kept page away and leaves the notebook", first, async ({ host, context, visit }) => {
  const { page, versions, water } = await visit();
  await water.typeSlowly("height", "5.5");
  await page.evaluate(() => caches.open("another program's"));
  await retire(host.folders.get("/"));
  const loads = countLoads(page);
  await versions.look();
  for (let wait = 0; wait < 50 && (await versions.caches()).length > 1; wait += 1) await page.waitForTimeout(100);
  assert.deepEqual(await versions.caches(), ["another program's"]);
  await page.waitForTimeout(1000);
  assert.equal(loads.count, 0, "no tab is reloaded");
  assert.equal(await water.field("height").inputValue(), "5.5");
  await reload(page);
  assert.equal(await water.field("height").inputValue(), "5.5");
  await page.close();

  // And the next version is kept again.
  host.folders.set("/", await laterVersion("3"));
  const next = await visit();
  assert.equal(await next.versions.version(), "3");
  assert.equal((await next.versions.caches()).length, 2);
});
