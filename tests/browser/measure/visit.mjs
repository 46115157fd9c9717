// One visit: the page is opened under the given conditions and watched until it has come to rest.
import { SLOW_PROCESSOR, slowLine, slowProcessor } from "./conditions.mjs";
import { kept, watchPage } from "./watcher.mjs";

const LONGEST_WAIT = 30_000;
/** Nothing may move for so long after the last request before a visit is over. */
const REST = 500;

/**
 * Opens `url` in a new tab of `context` on the slow line with the slow processor. Gives the times of the first paint and
 * of the first painted answer in milliseconds after the start of the navigation (null when there was none), the layout
 * shift, the longest task in milliseconds (0 when none took 50), whether a worker answered for the server, and the
 * requests with the milliseconds at which they were made.
 */
export async function visit(context, url) {
  const page = await context.newPage();
  try {
    const session = await context.newCDPSession(page);
    const requests = [];
    await slowLine(session, (request, from) => note(requests, request, from));
    await slowProcessor(session, SLOW_PROCESSOR);
    await page.addInitScript(watchPage);
    await page.goto(url, { waitUntil: "load", timeout: LONGEST_WAIT });
    await answered(session);
    await page.waitForLoadState("networkidle", { timeout: LONGEST_WAIT });
    await page.waitForTimeout(REST);
    const seen = await page.evaluate(() => ({
      firstPaint: window.firstTrussSeen.firstPaint,
      usable: window.firstTrussSeen.answer,
      layoutShift: window.firstTrussSeen.layoutShift,
      longestTask: Math.max(0, ...window.firstTrussSeen.longTasks.map(({ duration }) => duration)),
      fromWorker: navigator.serviceWorker.controller !== null,
      arrived: [...performance.getEntriesByType("navigation"), ...performance.getEntriesByType("resource")].map(
        ({ name, encodedBodySize }) => [name, encodedBodySize],
      ),
    }));
    const { arrived, ...told } = seen;
    return { ...told, requests: sinceNavigation(requests, new Map(arrived)) };
  } finally {
    await page.close();
  }
}

/** Opens `url` and presses a sky key in the very frame after the first answer: whether that changed the answer. */
export async function tapIsAnswered(context, url) {
  const page = await context.newPage();
  try {
    const session = await context.newCDPSession(page);
    await slowProcessor(session, SLOW_PROCESSOR);
    await page.addInitScript(watchPage);
    await page.goto(url, { waitUntil: "commit", timeout: LONGEST_WAIT });
    return await page.evaluate(
      (longest) =>
        new Promise((resolve) => {
          const poll = () => {
            const answer = () => document.getElementById("answer-dose").value;
            if (window.firstTrussSeen.answer !== null) {
              const before = answer();
              document.querySelector('input[name="sky"][value="clear"]').click();
              window.firstTrussAfterFrame(() => resolve(answer() !== before));
            } else if (performance.now() > longest) {
              resolve(false);
            } else {
              requestAnimationFrame(poll);
            }
          };
          poll();
        }),
      LONGEST_WAIT,
    );
  } finally {
    await page.close();
  }
}

/** Waits for the first answer; a page that shows none is no error here, for its times are null. */
export function answered(session) {
  return kept(session, "window.firstTrussSeen.answered", LONGEST_WAIT);
}

function note(requests, { request: { url }, timestamp }, from) {
  if (url.startsWith("http")) requests.push({ url, from, at: timestamp });
}

/**
 * The requests in their order, with the milliseconds after the first, which is the navigation, and the bytes that came
 * for it without the head; these are known of the page's own requests only.
 */
function sinceNavigation(requests, arrived) {
  requests.sort((one, other) => one.at - other.at);
  return requests.map(({ url, from, at }) => {
    const { pathname, search } = new URL(url);
    const bytes = from === "page" ? (arrived.get(url) ?? null) : null;
    return { path: pathname + search, from, at: (at - requests[0].at) * 1000, arrived: bytes };
  });
}
