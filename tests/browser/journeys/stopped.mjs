// The program stops or cannot start: the page says so, reloads, and saves what is kept, all without the program.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";

import { address } from "../support/browser.mjs";
import { journey } from "../support/journey.mjs";
import { NOTEBOOK_KEY, open, started } from "../support/visit.mjs";

const keptText = (page) => page.evaluate((key) => localStorage.getItem(key), NOTEBOOK_KEY);

async function savedText(page, panel) {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    panel.getByRole("button", { name: "Save my notebook to a file" }).click(),
  ]);
  assert.equal(download.suggestedFilename(), "first-truss-notebook.txt");
  return readFile(await download.path(), "utf8");
}

journey("a program that stops says so, and its notebook can be saved and is found again", {}, async (context) => {
  await context.addInitScript(() => {
    addEventListener("TrunkApplicationStarted", ({ detail }) => (window.program = detail.wasm));
  });
  const { page, water } = await open(context);
  await water.typeSlowly("height", "4.");
  const kept = await keptText(page);
  const panel = page.locator("#stopped");
  assert.equal(await panel.isVisible(), false);
  // More memory than there can be: the program traps.
  await page.evaluate(() => {
    addEventListener("too-much", () => window.program.__wbindgen_malloc(-1, 1));
    dispatchEvent(new Event("too-much"));
  });
  await panel.waitFor({ state: "visible" });
  assert.equal(await savedText(page, panel), kept);
  assert.equal(await keptText(page), kept);
  assert.equal(await page.locator(".page").evaluate((page) => page.inert), true, "nothing can be typed that would not be kept");
  await panel.getByRole("link", { name: "Reload the page" }).click();
  await started(page);
  assert.equal(await water.field("height").inputValue(), "4.");
});

journey("an error that nobody caught counts as stopping only when it is the page's own", {}, async (context) => {
  const { page } = await open(context);
  const panel = page.locator("#stopped");
  const errors = [];
  page.on("pageerror", ({ message }) => errors.push(message));
  await page.evaluate(() => {
    addEventListener("elsewhere", () => {
      throw new Error("an addition to the browser");
    });
    dispatchEvent(new Event("elsewhere"));
  });
  await page.waitForTimeout(300);
  assert.deepEqual(errors, ["an addition to the browser"]);
  assert.equal(await panel.isVisible(), false);
  await page.evaluate(() => void Promise.reject(new WebAssembly.RuntimeError("unreachable")));
  await panel.waitFor({ state: "visible" });
});

journey("a program that cannot start says so at once, and what is kept can be saved", {}, async (context) => {
  const { page, water } = await open(context);
  await water.press("sky", "clear");
  const kept = await keptText(page);
  await page.close();

  const broken = await context.newPage();
  // The worker is kept out of it: what it keeps would start.
  await broken.addInitScript(() => {
    WebAssembly.instantiateStreaming = WebAssembly.instantiate = () => Promise.reject(new WebAssembly.CompileError("no"));
  });
  await broken.goto(address);
  const panel = broken.locator("#cannot-start");
  await panel.waitFor({ state: "visible", timeout: 5000 });
  assert.equal(await savedText(broken, panel), kept);
});

journey("with nothing kept, nothing is offered to save", {}, async (context) => {
  const page = await context.newPage();
  await page.route("**/*.wasm", (route) => route.abort());
  await page.goto(address);
  const panel = page.locator("#cannot-start");
  await panel.waitFor({ state: "visible", timeout: 15_000 });
  assert.equal(await panel.getByRole("button").count(), 0);
});
