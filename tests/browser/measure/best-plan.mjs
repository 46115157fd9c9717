// The search for the fewest treatments on a slow processor: how long until the plan stands there, and whether the page stays awake.
import { SLOWER_PROCESSOR, phone, slowProcessor } from "./conditions.mjs";
import { key } from "./handling.mjs";
import { watchPage } from "./watcher.mjs";

/** The label that is read first: so open that there is much to try. */
const LABEL = { "least-days": "3", "most-uses": "10" };
const LONGEST_WAIT = 60_000;
const REST = 600;

/**
 * Opens Pest repeats at `url`, reads a label for spider mites and searches. Gives the milliseconds from the tap to the painted plan,
 * and the longest task meanwhile (0 when none took 50).
 */
export async function bestPlan(browser, url) {
  const context = await phone(browser);
  try {
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await page.addInitScript(watchPage);
    await page.goto(`${url}#pests`, { waitUntil: "networkidle" });
    await page.locator(key("pest", "spider-mite")).click();
    await page.locator(key("control", "contact-spray")).click();
    for (const question of ["names-crop", "names-place", "for-home"]) await page.locator(key(question, "yes")).click();
    for (const [field, text] of Object.entries(LABEL)) await page.locator(`[name="${field}"]`).fill(text);
    const button = page.getByRole("button", { name: "Find the fewest treatments" });
    await button.scrollIntoViewIfNeeded();
    const { x, y, width, height } = await button.boundingBox();
    // The way of a mouse to the button is none of the search's work.
    await page.mouse.move(x + width / 2, y + height / 2);
    await page.waitForTimeout(REST);
    await slowProcessor(session, SLOWER_PROCESSOR);
    await page.waitForTimeout(REST);
    const start = await page.evaluate((longest) => {
      window.firstTrussFound = new Promise((resolve, reject) => {
        const begun = ({ timeStamp }) => {
          const watcher = new MutationObserver(() => {
            if (!document.getElementById("answer-fewest")) return;
            watcher.disconnect();
            window.firstTrussAfterFrame((painted) => resolve(painted - timeStamp));
          });
          watcher.observe(document.getElementById("main"), { subtree: true, childList: true });
        };
        addEventListener("click", begun, { capture: true, once: true });
        setTimeout(() => reject(new Error("No plan was found.")), longest);
      });
      return performance.now();
    }, LONGEST_WAIT);
    await page.mouse.click(x + width / 2, y + height / 2);
    const found = await page.evaluate(() => window.firstTrussFound);
    await page.waitForTimeout(REST);
    const longest = await page.evaluate((start) => {
      const tasks = window.firstTrussSeen.longTasks.filter(({ startTime }) => startTime >= start);
      return Math.max(0, ...tasks.map(({ duration }) => duration));
    }, start);
    return { found, longest };
  } finally {
    await context.close();
  }
}
