// Measures the page and, in turn with it, the plain page, while both are served. Leaves a file of JSON, times in
// milliseconds. Then fills a profile's cache, for what is measured once the server has stopped.
import { readFile, writeFile } from "node:fs/promises";
import { gzipSync } from "node:zlib";

import { address, launch, launchWith, required } from "../support/browser.mjs";
import { bestPlan } from "./best-plan.mjs";
import { PHONE, phone } from "./conditions.mjs";
import { TAPS, handle } from "./handling.mjs";
import { fiveSeasons } from "./seasons.mjs";
import { tapIsAnswered, visit } from "./visit.mjs";

const plainAddress = required("FIRST_TRUSS_PLAIN_ADDRESS");
const runs = Number(required("FIRST_TRUSS_RUNS"));

/** The text of a notebook of five seasons, and the morning after them. */
const seasons = { text: await readFile(required("FIRST_TRUSS_SEASONS"), "utf8"), end: required("FIRST_TRUSS_SEASONS_END") };

/** How long a page may take to register its worker, and that worker to be ready. */
const WORKER_WAIT = 30_000;

/** Does `steps` in a profile that has nothing cached. */
async function cold(browser, steps, url) {
  const context = await phone(browser);
  try {
    return await steps(context, url);
  } finally {
    await context.close();
  }
}

/** Adds to each request the bytes that gzip would send. */
async function zipped(requests) {
  return Promise.all(
    requests.map(async (request) => {
      const answer = await fetch(new URL(request.path, address));
      const bytes = Buffer.from(await answer.arrayBuffer());
      return { ...request, gzip: gzipSync(bytes, { level: 9 }).length };
    }),
  );
}

/** Visits until a worker controls the page: whether there is one. */
async function fillCache() {
  const context = await launchWith(required("FIRST_TRUSS_PROFILE"), { viewport: PHONE });
  try {
    const page = await context.newPage();
    await page.goto(address, { waitUntil: "load" });
    const ready = await page.evaluate(
      (longest) =>
        Promise.race([
          navigator.serviceWorker.ready.then(() => true),
          new Promise((resolve) => setTimeout(resolve, longest, false)),
        ]),
      WORKER_WAIT,
    );
    if (!ready) return false;
    await page.reload({ waitUntil: "load" });
    return await page.evaluate(() => navigator.serviceWorker.controller !== null);
  } finally {
    await context.close();
  }
}

const browser = await launch();
try {
  const result = {
    browser: browser.version(),
    tapAnswered: {
      // These first visits also start the browser's own processes, so that no timed one has to.
      plain: await cold(browser, tapIsAnswered, plainAddress),
      page: await cold(browser, tapIsAnswered, address),
    },
    plain: { visits: [], uses: [] },
    page: { visits: [], uses: [] },
    seasons: [],
    bestPlan: [],
  };
  for (let run = 0; run < runs; run += 1) {
    const turns = [
      [result.plain, plainAddress, []],
      [result.page, address, TAPS],
    ];
    if (run % 2 === 1) turns.reverse();
    for (const [{ visits }, url] of turns) visits.push(await cold(browser, visit, url));
    // A page that shows no answer is not waited for again.
    if (result.page.visits.at(-1).usable === null) break;
    for (const [{ uses }, url, taps] of turns) uses.push(await handle(browser, url, taps));
    result.seasons.push(await fiveSeasons(browser, address, seasons));
    result.bestPlan.push(await bestPlan(browser, address));
  }
  result.page.visits[0].requests = await zipped(result.page.visits[0].requests);
  result.worker = await fillCache();
  await writeFile(required("FIRST_TRUSS_RESULT"), JSON.stringify(result, null, 1));
} finally {
  await browser.close();
}
