// The page arrives: the shell is painted, the program takes its place, and nothing goes wrong on the way.
import assert from "node:assert/strict";

import { address } from "../support/browser.mjs";
import { cleanJourney, journey } from "../support/journey.mjs";
import { MorningWater } from "../pages/morning-water.mjs";
import { answers, started } from "../support/visit.mjs";
import { watch } from "../support/watch.mjs";
import { heldProgram, heldRest } from "../support/weak-signal.mjs";

cleanJourney("the program replaces the shell without an error or a request elsewhere", {}, async ({ page, watched, response }) => {
  assert.equal(response.status(), 200);
  assert.match(await page.title(), /First Truss/);
  assert.equal(await page.getAttribute("html", "lang"), "en-GB");
  await page.waitForLoadState("networkidle");
  assert.ok(watched.requests.some((url) => new URL(url).pathname.endsWith(".wasm")), "the program was fetched");
  assert.equal(await page.locator("#shell").count(), 0);
  assert.equal(await page.locator("h1:visible").count(), 1);
  for (const id of ["cannot-start", "stopped"]) {
    assert.equal(await page.locator(`#${id}`).isVisible(), false, id);
  }
});

journey("a key pressed before the program is there counts", {}, async (context) => {
  const page = await context.newPage();
  const watched = await watch(page, address);
  const letGo = await heldProgram(page);
  await page.goto(address, { waitUntil: "commit" });
  await page.locator('#shell label:has(> input[value="clear"])').click();
  letGo();
  await started(page);
  const pressed = page.locator('input[name="sky"]:checked');
  assert.equal(await pressed.getAttribute("value"), "clear");
  watched.assertClean();
});

journey("a page that is opened out of sight, where no frame is painted, is built all the same", {}, async (context) => {
  const page = await context.newPage();
  await page.addInitScript(() => {
    Object.defineProperty(document, "hidden", { get: () => true });
    window.requestAnimationFrame = () => 0;
  });
  await page.goto(address);
  await answers(page);
  assert.notEqual(await page.locator("#answer-dose").getAttribute("value"), null);
});

journey("a program that does not come is told in words", {}, async (context) => {
  const page = await context.newPage();
  await page.route("**/*.wasm", (route) => route.abort());
  await page.goto(address);
  const message = page.locator("#cannot-start");
  await message.waitFor({ state: "visible", timeout: 20_000 });
  assert.match(await message.innerText(), /reload/i);
});

journey("the first answer waits for no more than it needs", {}, async (context) => {
  const page = await context.newPage();
  const watched = await watch(page, address);
  const letGo = await heldRest(page);
  await page.goto(address);
  await answers(page);
  const water = new MorningWater(page);
  const before = await water.dose();
  await page.locator('label:has(> input[name="sky"][value="clear"])').click();
  assert.notEqual(await water.dose(), before, "a tap is answered");
  assert.equal(await page.locator("#main").getAttribute("aria-busy"), "true");
  assert.equal(await page.locator("#plants").count(), 0);
  const desk = await page.locator(".plate").boundingBox();
  letGo();
  await started(page);
  await page.locator("#plants").waitFor();
  assert.deepEqual(await page.locator(".plate").boundingBox(), desk, "nothing moved");
  watched.assertClean();
});

journey("a rest that does not come is told in words, and asked for again when there is signal", {}, async (context) => {
  const page = await context.newPage();
  await page.route("**/*_rest.wasm", (route) => route.abort());
  await page.goto(`${address}#feed`);
  await answers(page);
  const missing = page.locator("#main .missing");
  await missing.waitFor();
  assert.match(await missing.innerText(), /has not come yet/);
  await page.locator('nav a[href="#water"]').click();
  assert.ok((await new MorningWater(page).dose()) > 0, "Morning water answers all the same");
  await page.unroute("**/*_rest.wasm");
  await page.evaluate(() => window.dispatchEvent(new Event("online")));
  await started(page);
  await page.locator('nav a[href="#feed"]').click();
  await page.locator("#answer-feed").waitFor();
  assert.equal(await missing.count(), 0);
});

journey("a missing file is a plain 404", {}, async (context) => {
  const response = await context.request.get(new URL("missing.html", address).href);
  assert.equal(response.status(), 404);
  assert.equal(response.headers()["x-content-type-options"], "nosniff");
});
