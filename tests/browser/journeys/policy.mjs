// The page may do only what it needs, and says so itself as well as through its host.
import assert from "node:assert/strict";

import { cleanJourney, journey } from "../support/journey.mjs";
import { open } from "../support/visit.mjs";

cleanJourney("the policy stands in the page and in the header, and the page keeps to it", {}, async ({ page, response }) => {
  const meta = await page.getAttribute('meta[http-equiv="Content-Security-Policy"]', "content");
  const headers = response.headers();
  assert.equal(headers["content-security-policy"], `${meta}; frame-ancestors 'none'`);
  assert.match(meta, /^default-src 'none'; script-src 'self' 'sha256-/);
  assert.doesNotMatch(meta, /unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|\*|https?:|data:|blob:/);
  assert.equal(headers["cross-origin-opener-policy"], "same-origin");
  assert.equal(headers["cross-origin-resource-policy"], "same-origin");
  assert.equal(headers["referrer-policy"], "no-referrer");
  assert.match(headers["permissions-policy"], /geolocation=\(\)/);
  assert.doesNotMatch(headers["permissions-policy"], /self|\*/);
  for (const screen of ["#feed", "#pests", "#notebook", "#water"]) {
    await page.evaluate((screen) => void (location.hash = screen), screen);
    await page.waitForTimeout(100);
  }
});

journey("what is not the page's own does not run", {}, async (context) => {
  const { page } = await open(context);
  const ran = await page.evaluate(async () => {
    const tries = {
      markup: () => (document.body.innerHTML = "<img src=x onerror='window.ran = 1'>"),
      // In a turn of its own: what the driver itself evaluates is not held to the policy.
      code: () =>
        new Promise((resolve, reject) => {
          setTimeout(() => {
            try {
              resolve(Function("window.ran = 2")());
            } catch (error) {
              reject(error);
            }
          });
        }),
      style: () => {
        const box = document.createElement("div");
        box.setAttribute("style", "color: rgb(1, 2, 3)");
        document.body.append(box);
        if (getComputedStyle(box).color === "rgb(1, 2, 3)") window.ran = 3;
        throw new Error("not applied");
      },
      event: () => {
        const button = document.createElement("button");
        button.setAttribute("onclick", "window.ran = 4");
        button.click();
        throw new Error("not run");
      },
      elsewhere: () => fetch("http://127.0.0.1:9/").then(() => (window.ran = 5)),
    };
    const passed = [];
    for (const [name, attempt] of Object.entries(tries)) {
      try {
        await attempt();
        passed.push(name);
      } catch {}
    }
    return { passed, ran: window.ran ?? null };
  });
  assert.deepEqual(ran, { passed: [], ran: null });
});
