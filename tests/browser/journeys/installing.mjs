// Putting the page on the home screen: what the browser needs to know, and what the grower is told, once.
import assert from "node:assert/strict";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";

import { address, launchInstalled, launchKept } from "../support/browser.mjs";
import { BY_HAND_DESKTOP, BY_HAND_PHONE, BY_HAND_TABLET, offerToInstall, prompts } from "../support/installing.mjs";
import { cleanJourney, journey } from "../support/journey.mjs";
import { pixels } from "../support/pixels.mjs";
import { offerVersion } from "../support/states.mjs";
import { NOTEBOOK_KEY, open, reload, started } from "../support/visit.mjs";

const HINT_KEY = "first-truss.install-hint";

const hint = (page) => page.locator("#install-hint");
const note = (page) => page.locator("#install-note");
const isOffered = (page) => hint(page).isVisible();

async function manifest(context) {
  const response = await context.request.get(new URL("first-truss.webmanifest", address).href);
  assert.equal(response.status(), 200);
  return { response, facts: await response.json() };
}

// ---- what the browser needs ----

journey("the manifest has its type, stays relative, and every file in it is as it says", {}, async (context) => {
  const { response, facts } = await manifest(context);
  assert.equal(response.headers()["content-type"], "application/manifest+json");
  for (const place of [facts.id, facts.start_url, facts.scope, ...facts.shortcuts.map(({ url }) => url)]) {
    assert.match(place, /^\.\//, "an address that holds below any folder");
  }
  const page = await context.newPage();
  const files = [...facts.icons, ...facts.screenshots];
  assert.equal(files.length, 6);
  for (const { src, sizes, type } of files) {
    assert.doesNotMatch(src, /^\/|:/);
    const file = await context.request.get(new URL(src, address).href);
    assert.equal(file.status(), 200, src);
    assert.equal(file.headers()["content-type"], type, src);
    const { width, height } = await pixels(page, await file.body(), type);
    if (sizes === "any") assert.equal(width, height, src);
    else assert.equal(`${width}x${height}`, sizes, src);
  }
  for (const form of ["narrow", "wide"]) {
    assert.ok(facts.screenshots.some(({ form_factor, label }) => form_factor === form && label), form);
  }
});

journey("its colours are those of the page", {}, async (context) => {
  const { facts } = await manifest(context);
  const { page } = await open(context);
  const token = (name) => page.evaluate((name) => getComputedStyle(document.documentElement).getPropertyValue(name), name);
  assert.equal(facts.theme_color, await token("--frame"));
  assert.equal(facts.background_color, await token("--ground"));
  assert.equal(await page.getAttribute('meta[name="theme-color"][media*="light"]', "content"), facts.theme_color);
});

journey("the icons are their drawings, and the maskable one may be cut to a circle", {}, async (context) => {
  const page = await context.newPage();
  const fetched = async (name) => (await context.request.get(new URL(name, address).href)).body();
  const drawing = await fetched("icon.svg");
  for (const side of [192, 512]) {
    const drawn = await pixels(page, drawing, "image/svg+xml", side);
    const kept = await pixels(page, await fetched(`pictures/icon-${side}.png`), "image/png");
    const off = drawn.rgba.reduce((sum, byte, index) => sum + Math.abs(byte - kept.rgba[index]), 0) / drawn.rgba.length;
    assert.ok(off < 2, `icon-${side}.png differs from icon.svg by ${off}: run cargo task icons`);
  }
  for (const [name, side] of [["icon-maskable-512.png", 512], ["apple-touch-icon.png", 180]]) {
    const { rgba } = await pixels(page, await fetched(`pictures/${name}`), "image/png");
    const corner = rgba.subarray(0, 4).join();
    assert.equal(rgba[3], 255, `${name} is opaque`);
    let beyond = 0;
    for (let pixel = 0; pixel < side * side; pixel += 1) {
      const [x, y] = [(pixel % side) + 0.5 - side / 2, Math.floor(pixel / side) + 0.5 - side / 2];
      if (Math.hypot(x, y) > 0.4 * side && rgba.subarray(pixel * 4, pixel * 4 + 4).join() !== corner) beyond += 1;
    }
    assert.equal(beyond, 0, `pixels of ${name} outside the circle that is always seen`);
  }
});

test("Chromium has nothing against installing it", async () => {
  const folder = await mkdtemp(join(tmpdir(), "first-truss-"));
  const context = await launchKept(folder);
  try {
    const page = await context.newPage();
    await page.goto(address);
    const session = await context.newCDPSession(page);
    const { url, errors } = await session.send("Page.getAppManifest");
    assert.equal(url, new URL("first-truss.webmanifest", address).href);
    assert.deepEqual(errors, []);
    const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
    assert.deepEqual(installabilityErrors, []);
  } finally {
    await context.close();
    await rm(folder, { recursive: true, force: true });
  }
});

journey("each shortcut leads to its screen", {}, async (context) => {
  const { facts } = await manifest(context);
  assert.equal(facts.shortcuts.length, 3);
  for (const { name, url } of facts.shortcuts) {
    const page = await context.newPage();
    await page.goto(new URL(url, new URL("first-truss.webmanifest", address)).href);
    await page.waitForFunction(() => !document.getElementById("shell"));
    assert.equal(await page.locator(".tab[aria-current]").innerText(), name);
    assert.ok((await page.title()).startsWith(name));
    await page.close();
  }
});

cleanJourney("a visit asks for no picture", {}, async ({ page, watched }) => {
  await page.waitForLoadState("networkidle");
  assert.deepEqual(watched.requests.filter((url) => url.includes("pictures/")), []);
});

// ---- what the grower is told ----

cleanJourney("the offer appears when the browser can install, once, and leads to the browser's own dialogue", {}, async ({ page }) => {
  assert.equal(await isOffered(page), false);
  assert.equal(await offerToInstall(page), true, "the browser's own banner is held back");
  assert.equal(await isOffered(page), true);
  assert.equal(await prompts(page), 0);
  await page.getByRole("button", { name: "Install" }).click();
  assert.equal(await prompts(page), 1);
  assert.equal(await isOffered(page), false);
  await reload(page);
  await offerToInstall(page);
  assert.equal(await isOffered(page), false);
});

cleanJourney("an offer that was refused is still in the Notebook", {}, async ({ page }) => {
  await offerToInstall(page);
  await page.getByRole("button", { name: "Not now" }).click();
  await reload(page);
  await offerToInstall(page);
  assert.equal(await isOffered(page), false);
  assert.equal(await note(page).isVisible(), false);
  await page.getByRole("link", { name: "Notebook" }).click();
  await note(page).getByRole("button", { name: "Install" }).click();
  assert.equal(await prompts(page), 1);
  assert.equal(await note(page).isVisible(), false);
});

cleanJourney("the offer is reached and dismissed by keyboard, and the focus goes back to the question", {}, async ({ page }) => {
  await offerToInstall(page);
  const focused = () => page.evaluate(() => document.activeElement?.id);
  for (let presses = 0; presses < 80 && (await focused()) !== "install-now"; presses += 1) await page.keyboard.press("Tab");
  assert.equal(await focused(), "install-now");
  await page.keyboard.press("Tab");
  assert.equal(await focused(), "install-later");
  await page.keyboard.press("Escape");
  assert.equal(await isOffered(page), false);
  assert.equal(await focused(), "question");
  assert.equal(await prompts(page), 0);
});

cleanJourney("nothing appears under a finger that is at work, and nothing moves", {}, async ({ page, water }) => {
  const box = () => page.locator('label:has(> input[value="dry"])').boundingBox();
  await water.press("sky", "clear");
  await page.waitForTimeout(600); // past the half second after a tap in which a shift is forgiven
  const before = await box();
  await page.evaluate(() => {
    window.firstTrussShift = 0;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) window.firstTrussShift += entry.value;
    }).observe({ type: "layout-shift" });
  });
  await offerToInstall(page);
  assert.equal(await isOffered(page), false);
  await hint(page).waitFor({ state: "visible", timeout: 5_000 });
  assert.deepEqual(await box(), before);
  assert.equal(await page.evaluate(() => window.firstTrussShift), 0);
});

cleanJourney("the offer does not lie over that of a new version: it comes when that is gone", {}, async (visit) => {
  const { page } = visit;
  await offerVersion(visit);
  await offerToInstall(page);
  assert.equal(await isOffered(page), false);
  // A touch elsewhere leaves the other offer where it is, and this one waits on.
  await page.locator("#question").click();
  await page.waitForTimeout(2000);
  assert.equal(await isOffered(page), false);
  await page.locator("#new-version-later").click();
  await hint(page).waitFor({ state: "visible", timeout: 5_000 });
  assert.equal(await page.locator("#new-version").isVisible(), false);
});

for (const [name, device] of [["phone", BY_HAND_PHONE], ["tablet", BY_HAND_TABLET]]) {
  journey(`a ${name} that installs by hand is told how before anything is entered, once`, { device }, async (context) => {
    await context.addInitScript(() => Object.defineProperty(navigator, "maxTouchPoints", { value: 5 }));
    const { page, water, watched } = await open(context);
    assert.equal(await isOffered(page), true);
    assert.match(await hint(page).innerText(), /Add to Home Screen.*stay behind/s);
    assert.equal(await page.locator("#install-now").isVisible(), false);
    await page.getByRole("button", { name: "Not now" }).click();
    await reload(page);
    assert.equal(await isOffered(page), false);
    await page.getByRole("link", { name: "Notebook" }).click();
    // Until it is shown it tells the words of every way.
    await note(page).waitFor();
    assert.match(await note(page).innerText(), /before you enter anything/);
    await page.locator("#plot-name").fill("Marlpit Lane");
    await page.getByRole("link", { name: "Morning water" }).click();
    await water.press("sky", "clear");
    await page.getByRole("link", { name: "Notebook" }).click();
    await note(page).waitFor();
    assert.match(await note(page).innerText(), /save a copy/);
    assert.doesNotMatch(await note(page).innerText(), /before you enter anything/);
    watched.assertClean();
  });
}

journey("where it would be too late, nothing is offered", { device: BY_HAND_PHONE }, async (context) => {
  await context.addInitScript((key) => localStorage.setItem(key, localStorage.getItem(key) ?? ""), NOTEBOOK_KEY);
  const page = await context.newPage();
  await page.goto(address);
  // An empty text is no notebook: this first visit may still be told.
  assert.equal(await isOffered(page), true);
  await page.evaluate((key) => localStorage.removeItem(key), HINT_KEY);
  await started(page);
  await page.locator('label:has(> input[value="clear"])').click();
  await page.waitForFunction((key) => localStorage.getItem(key), NOTEBOOK_KEY);
  await reload(page);
  assert.equal(await isOffered(page), false);
});

cleanJourney("a desktop that cannot install is told nothing", { device: BY_HAND_DESKTOP, fragment: "#notebook" }, async ({ page }) => {
  assert.equal(await isOffered(page), false);
  assert.equal(await note(page).isVisible(), false);
});

journey("on the home screen of a phone nothing is offered", { device: BY_HAND_PHONE }, async (context) => {
  await context.addInitScript(() => Object.defineProperty(navigator, "standalone", { value: true }));
  const { page } = await open(context, "#notebook");
  assert.equal(await isOffered(page), false);
  assert.equal(await note(page).isVisible(), false);
});

test("in a window of its own nothing is offered", async () => {
  const folder = await mkdtemp(join(tmpdir(), "first-truss-"));
  const context = await launchInstalled(folder);
  try {
    const [page] = context.pages();
    await page.waitForFunction(() => !document.getElementById("shell"));
    assert.equal(await page.evaluate(() => matchMedia("(display-mode: standalone)").matches), true);
    await offerToInstall(page);
    assert.equal(await isOffered(page), false);
  } finally {
    await context.close();
    await rm(folder, { recursive: true, force: true });
  }
});

journey("where nothing can be kept, nothing is offered and nothing breaks", { device: BY_HAND_PHONE }, async (context) => {
  await context.addInitScript(() => {
    Object.defineProperty(window, "localStorage", {
      get() {
        throw new DOMException("blocked", "SecurityError");
      },
    });
  });
  const { page, watched } = await open(context, "#notebook");
  assert.equal(await isOffered(page), false);
  assert.match(await note(page).innerText(), /Add to Home Screen/);
  watched.assertClean();
});
