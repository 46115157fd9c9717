// No signal: the host is stopped, and everything works from what is kept.
import assert from "node:assert/strict";

import { firstVersion, laterVersion, programName } from "../support/builds.mjs";
import { hostedJourney } from "../support/hosted.mjs";
import { reload, started } from "../support/visit.mjs";

const SCREENS = ["#water", "#feed", "#pests", "#notebook"];

const first = async () => ({ "/": await firstVersion() });

hostedJourney("with the host stopped, every screen opens by its own address", first, async ({ host, visit }) => {
  const { page, versions } = await visit();
  const question = async (page) => page.locator("#question").innerText();
  await page.waitForTimeout(1000);
  assert.equal(await versions.bar.isVisible(), false, "a first version is not offered as a new one");
  const online = {};
  for (const screen of SCREENS) {
    await page.goto(host.address(`/${screen}`));
    await page.waitForFunction((screen) => location.hash === screen, screen);
    online[screen] = await question(page);
  }
  assert.equal(new Set(Object.values(online)).size, 4, "four screens");
  await host.stop();
  await reload(page);
  for (const screen of SCREENS) {
    const tab = await visit(screen);
    assert.equal(await question(tab.page), online[screen]);
    await tab.page.close();
  }
  assert.equal((await visit("?today=yes#feed")).page.url().endsWith("#feed"), true, "what stands behind ? is no other page");
});

hostedJourney("with the host stopped, a whole morning is typed and kept", first, async ({ host, visit }) => {
  const { page, water, versions } = await visit();
  await host.stop();
  await reload(page);
  const before = await water.dose();
  await water.press("sky", "clear");
  await water.press("feel", "moist");
  assert.deepEqual(await water.typeSlowly("height", "6.5"), ["6", "6.", "6.5"]);
  await water.unfold("fine-tune");
  await water.typeSlowly("warmest", "29");
  const after = await water.dose();
  assert.notEqual(after, before);
  await reload(page);
  await versions.kept();
  assert.equal(await water.dose(), after);
  assert.equal(await water.pressed("sky"), "clear");
  assert.equal(await water.field("height").inputValue(), "6.5");
});

hostedJourney("with the host stopped, the libraries' licences can be read", first, async ({ host, visit }) => {
  const { page } = await visit("#notebook");
  await host.stop();
  const [licences] = await Promise.all([
    page.waitForEvent("popup"),
    page.getByRole("link", { name: "Licences of the libraries in this page" }).click(),
  ]);
  await licences.waitForLoadState();
  const text = await licences.locator("body").innerText();
  assert.match(text, /wasm-bindgen \d[\s\S]*Permission is hereby granted/);
  assert.match(text, /The Rust standard library/);
  assert.equal(await page.locator("#question").innerText(), "Notebook", "the page stays where it is");
});

hostedJourney("the program streams out of the cache", first, async ({ host, visit }) => {
  const { page, watched } = await visit();
  const program = await programName(host.folders.get("/"));
  await host.stop();
  const [answer] = await Promise.all([page.waitForResponse((response) => response.url().endsWith(program)), reload(page)]);
  assert.equal(answer.fromServiceWorker(), true);
  // The loader falls back on another way, with a warning, when the program does not stream: `visit` watches for that.
  const found = await page.evaluate(async (program) => {
    const response = await fetch(program);
    const type = response.headers.get("Content-Type");
    const module = await WebAssembly.compileStreaming(response);
    return { type, isModule: module instanceof WebAssembly.Module };
  }, program);
  assert.deepEqual(found, { type: "application/wasm", isModule: true });
  watched.forgive(/^request after load: .*\.wasm$/);
});

hostedJourney("where the store cannot be opened any more, the page comes from the host", first, async ({ host, context, visit }) => {
  const { page, water } = await visit();
  const [worker] = context.serviceWorkers();
  await worker.evaluate(() => {
    caches.open = async () => {
      throw new DOMException("Internal error.", "UnknownError");
    };
  });
  host.requests.length = 0;
  await reload(page);
  for (const path of ["/", `/${await programName(host.folders.get("/"))}`]) assert.ok(host.requests.includes(path), `${path} of ${host.requests}`);
  await water.press("sky", "dark");
});

const plots = async () => ({ "/plot/14/": await firstVersion(), "/plot/15/": await firstVersion(), "/": await firstVersion() });

/** In the page: where the worker reaches that is nearest to it, once a worker of the page's own folder works or two seconds are over. */
async function ownScope() {
  const own = new URL("./", location.href).href;
  for (let look = 0; look < 40; look += 1) {
    const nearest = await navigator.serviceWorker.getRegistration();
    if (nearest?.active && nearest.scope === own) break;
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return (await navigator.serviceWorker.getRegistration())?.scope;
}

hostedJourney("copies in several folders of one host leave each other alone", plots, async ({ host, visit }) => {
  const above = await visit("", "/");
  const one = await visit("", "/plot/14/");
  const other = await visit("", "/plot/15/");
  const scopes = await Promise.all([above, one, other].map(({ page }) => page.evaluate(ownScope)));
  assert.deepEqual(scopes, ["/", "/plot/14/", "/plot/15/"].map((path) => host.address(path)), "each has a worker of its own");
  const before = await one.versions.caches();
  assert.equal(before.length, 3);

  // The copy in /plot/15/ moves on; the others keep what they have.
  host.folders.set("/plot/15/", await laterVersion("2"));
  assert.equal(await other.versions.look(), "installed");
  await other.versions.offered();
  assert.equal(await one.versions.bar.isVisible(), false);
  await Promise.all([other.page.waitForEvent("load"), other.versions.accept()]);
  await started(other.page);
  assert.equal(await other.versions.version(), "2");
  const after = await one.versions.caches();
  assert.equal(after.length, 3);
  assert.equal(after.filter((name) => before.includes(name)).length, 2, "only one cache was replaced");

  await host.stop();
  for (const [tab, version] of [[above, null], [one, null], [other, "2"]]) {
    await reload(tab.page);
    assert.equal(await tab.versions.version(), version);
    await tab.water.press("sky", "dark");
  }
});

hostedJourney("an address of no file leads to the page when there is no signal", first, async ({ host, visit }) => {
  const { page, watched } = await visit();
  const response = await page.goto(host.address("/missing.html"));
  assert.equal(response.status(), 404, "with signal, the host has the word");
  await host.stop();
  await page.goto(host.address("/elsewhere/leaflet#feed"));
  await started(page);
  assert.equal(page.url(), host.address("/#feed"));
  watched.forgive(/missing\.html|favicon\.ico/); // a page that is not there has no icon either
});

const pretty = async (host) => host.redirects.set("/index.html", "/");

hostedJourney("a page that came by a redirect is kept all the same", first, async ({ host, visit }) => {
  const { page } = await visit();
  await host.stop();
  await reload(page);
  assert.equal(await page.locator("#question").count(), 1);
}, pretty);
