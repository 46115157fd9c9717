// The headers that a host may send, from the example files: the page still works with them, and they close what they name.
import assert from "node:assert/strict";
import { readFile } from "node:fs/promises";

import { address } from "../support/browser.mjs";
import { journey } from "../support/journey.mjs";
import { open } from "../support/visit.mjs";

const example = (name) => readFile(new URL(`../../../hosting/${name}`, import.meta.url), "utf8");

/** The headers for every file, in the form of `_headers`: an unindented pattern, then one indented line for each header. */
async function forEveryFile() {
  const headers = {};
  let pattern = "";
  for (const line of (await example("_headers")).split("\n")) {
    if (/^\S/.test(line)) pattern = line.trim();
    else if (line.trim() && pattern === "/*") {
      const [, name, value] = /^\s+([^:]+): (.+)$/.exec(line);
      headers[name] = value;
    }
  }
  return headers;
}

/** Header lines of nginx or Apache, as names and values. */
function quoted(text, start) {
  const lines = text.matchAll(new RegExp(`^${start} (\\S+) "([^"]+)"`, "gm"));
  return Object.fromEntries([...lines].map(([, name, value]) => [name, value]));
}

/** What a page that frames this one finds in its frame. */
async function framed(context) {
  const page = await context.newPage();
  await page.goto(new URL("missing.html", address).href);
  await page.evaluate((address) => {
    const frame = document.createElement("iframe");
    frame.src = address;
    document.body.replaceChildren(frame);
    return new Promise((loaded) => frame.addEventListener("load", loaded));
  }, address);
  const text = await page.frames()[1].evaluate(() => document.body.textContent);
  await page.close();
  return text;
}

journey("the three examples send the same headers", {}, async () => {
  const headers = await forEveryFile();
  assert.equal(Object.keys(headers).length, 7);
  assert.deepEqual(quoted(await example("nginx.conf"), "add_header"), headers);
  assert.deepEqual(quoted(await example(".htaccess"), "Header always set"), headers);
});

journey("without them another page can frame this one", {}, async (context) => {
  await context.route("**/*", async (route) => {
    const response = await route.fetch();
    const { "content-security-policy": policy, ...headers } = response.headers();
    if (route.request().isNavigationRequest()) assert.match(policy, /frame-ancestors 'none'/);
    await route.fulfill({ response, headers });
  });
  assert.match(await framed(context), /Each plant/);
  await context.unrouteAll({ behavior: "ignoreErrors" });
});

journey("the page works with them, and what they close is closed", {}, async (context) => {
  const headers = await forEveryFile();
  const { page, water, watched, response } = await open(context);
  for (const [name, value] of Object.entries(headers)) {
    const sent = response.headers()[name.toLowerCase()];
    // The page's own policy stands in front of the example's.
    assert.ok(name === "Content-Security-Policy" ? sent.endsWith(`; ${value}`) : sent === value, `${name}: ${sent}`);
  }
  await water.press("sky", "clear");
  assert.ok((await water.dose()) > 0);
  const named = headers["Permissions-Policy"].split(", ").map((part) => part.split("=")[0]);
  const { known, open: left } = await page.evaluate(() => ({
    known: document.featurePolicy.features(),
    open: document.featurePolicy.allowedFeatures(),
  }));
  assert.ok(known.includes("geolocation") && known.includes("camera"));
  assert.deepEqual(named.filter((feature) => left.includes(feature)), [], "named, and open all the same");
  watched.assertClean();
  assert.doesNotMatch(await framed(context), /Each plant/);
});
