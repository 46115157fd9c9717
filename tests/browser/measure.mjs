// Times the first answer of the page and of a plain page, cold, on a slow line and a slow processor.
// Leaves a file of JSON: what the page asked for, and the times in milliseconds.
import { writeFile } from "node:fs/promises";

import { address, launch, required } from "./support/browser.mjs";

const plainAddress = required("FIRST_TRUSS_PLAIN_ADDRESS");
const runs = Number(required("FIRST_TRUSS_RUNS"));

const BYTES_PER_KILOBIT = 1000 / 8;
/** The usual profile of a slow mobile line: 150 ms, 1,638 kbit/s down, 750 kbit/s up. */
const SLOW_LINE = {
  offline: false,
  latency: 150,
  downloadThroughput: 1638 * BYTES_PER_KILOBIT,
  uploadThroughput: 750 * BYTES_PER_KILOBIT,
};
const PROCESSOR_SLOWDOWN = 4;
const LONGEST_WAIT = 30_000;

/** Notes the first frame in which the dose shows a digit. */
function noteFirstAnswer() {
  const look = () => {
    if (/\d/.test(document.getElementById("answer-dose")?.textContent ?? "")) {
      window.firstAnswerAt = performance.now();
    } else {
      requestAnimationFrame(look);
    }
  };
  requestAnimationFrame(look);
}

/** One cold visit: a new context has nothing cached. */
async function visit(browser, url) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  try {
    const page = await context.newPage();
    const requests = [];
    page.on("request", (request) => requests.push(new URL(request.url()).pathname));
    const session = await context.newCDPSession(page);
    await session.send("Network.enable");
    await session.send("Network.emulateNetworkConditions", SLOW_LINE);
    await session.send("Emulation.setCPUThrottlingRate", { rate: PROCESSOR_SLOWDOWN });
    await page.addInitScript(noteFirstAnswer);
    await page.goto(url, { waitUntil: "load", timeout: LONGEST_WAIT });
    let time = null;
    try {
      await page.waitForFunction(() => window.firstAnswerAt, null, { timeout: LONGEST_WAIT });
      time = await page.evaluate(() => window.firstAnswerAt);
    } catch (error) {
      if (error.name !== "TimeoutError") throw error;
    }
    await page.waitForLoadState("networkidle", { timeout: LONGEST_WAIT });
    return { time, requests };
  } finally {
    await context.close();
  }
}

const browser = await launch();
try {
  // The first visit of all also starts the browser's own processes: it is not timed.
  const { time, requests } = await visit(browser, address);
  const result = { browser: browser.version(), requests, page: [], plain: [] };
  // A page that shows no answer once is not waited for again.
  for (let run = 0; time !== null && run < runs; run += 1) {
    result.plain.push((await visit(browser, plainAddress)).time);
    result.page.push((await visit(browser, address)).time);
  }
  await writeFile(required("FIRST_TRUSS_RESULT"), JSON.stringify(result));
} finally {
  await browser.close();
}
