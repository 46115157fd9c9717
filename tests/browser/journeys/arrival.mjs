// The page arrives: the program starts, and nothing goes wrong on the way.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";

import { address, launch } from "../support/browser.mjs";
import { watch } from "../support/watch.mjs";

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

async function arrive(path = "") {
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  const watched = await watch(page, address);
  await page.addInitScript(() => {
    window.addEventListener("TrunkApplicationStarted", () => {
      window.firstTrussStarted = true;
    });
  });
  const response = await page.goto(new URL(path, address).href, { waitUntil: "load" });
  return { page, watched, response };
}

/** The loader says so once the program has run. */
async function started(page) {
  await page.waitForFunction(() => window.firstTrussStarted, null, { timeout: 20_000 });
}

test("the page loads without an error, a failed request or a request elsewhere", async () => {
  const { page, watched, response } = await arrive();
  assert.equal(response.status(), 200);
  await started(page);
  assert.notEqual((await page.innerText("body")).trim(), "", "the program shows something");
  await page.waitForLoadState("networkidle");
  assert.ok(watched.requests.some((url) => new URL(url).pathname.endsWith(".wasm")), "the program was fetched");
  watched.assertClean();
  await page.close();
});

test("the page has a title and a language", async () => {
  const { page } = await arrive();
  assert.match(await page.title(), /First Truss/);
  assert.equal(await page.getAttribute("html", "lang"), "en-GB");
  await page.close();
});

test("a missing file is a plain 404", async () => {
  const page = await browser.newPage();
  const response = await page.request.get(new URL("missing.html", address).href);
  assert.equal(response.status(), 404);
  await page.close();
});
