// The page arrives: the shell is painted, the program takes its place, and nothing goes wrong on the way.
import assert from "node:assert/strict";

import { address } from "../support/browser.mjs";
import { cleanJourney, journey } from "../support/journey.mjs";
import { started } from "../support/visit.mjs";
import { watch } from "../support/watch.mjs";
import { heldProgram } from "../support/weak-signal.mjs";

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

journey("a program that does not come is told in words", {}, async (context) => {
  const page = await context.newPage();
  await page.route("**/*.wasm", (route) => route.abort());
  await page.goto(address);
  const message = page.locator("#cannot-start");
  await message.waitFor({ state: "visible", timeout: 20_000 });
  assert.match(await message.innerText(), /reload/i);
});

journey("a missing file is a plain 404", {}, async (context) => {
  const response = await context.request.get(new URL("missing.html", address).href);
  assert.equal(response.status(), 404);
  assert.equal(response.headers()["x-content-type-options"], "nosniff");
});
