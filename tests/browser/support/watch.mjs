// Notes everything that a page must not do, from before its first line runs.
import assert from "node:assert/strict";

/** The icon of the tab is the browser's own affair: it asks for it when it likes, and drops it when the page is left. */
const isIcon = (request) => request.url().endsWith("/icon.svg");

/**
 * Watches `page`, which has not been opened yet. Its complaints are: an error or warning in the console, an error
 * nobody caught, a breach of the content security policy, a request that failed or was refused, a request to another
 * origin than `address`, and any request of the page's own once it is loaded with the rest of its program: from then on
 * only the worker asks for anything.
 */
export async function watch(page, address) {
  const complaints = [];
  const requests = [];
  const origin = new URL(address).origin;

  let isLoaded = false;

  page.on("console", (message) => {
    if (["error", "warning", "assert"].includes(message.type())) {
      complaints.push(`console ${message.type()}: ${message.text()} (${message.location().url})`);
    }
  });
  page.on("pageerror", (error) => complaints.push(`uncaught: ${error.message}`));
  page.on("crash", () => complaints.push("the page crashed"));
  page.on("request", (request) => {
    requests.push(request.url());
    const { origin: asked, protocol } = new URL(request.url());
    if (asked !== origin && !["data:", "blob:"].includes(protocol)) {
      complaints.push(`request to another origin: ${request.url()}`);
    }
    if (request.isNavigationRequest()) isLoaded = false;
    else if (isLoaded && protocol !== "blob:" && !isIcon(request)) complaints.push(`request after load: ${request.url()}`);
  });
  page.context().on("request", (request) => {
    const worker = request.serviceWorker();
    if (worker && new URL(worker.url()).origin === origin && new URL(request.url()).origin !== origin) {
      complaints.push(`the worker's request to another origin: ${request.url()}`);
    }
  });
  page.on("requestfailed", (request) => {
    if (isIcon(request) && request.failure()?.errorText === "net::ERR_ABORTED") return;
    complaints.push(`request failed: ${request.url()} (${request.failure()?.errorText})`);
  });
  page.on("response", (response) => {
    if (response.status() >= 400) {
      complaints.push(`request refused: ${response.url()} (${response.status()})`);
    }
  });
  await page.exposeFunction("firstTrussPolicyBreach", (breach) => {
    complaints.push(`policy: ${breach}`);
  });
  await page.exposeFunction("firstTrussLoaded", () => {
    isLoaded = true;
  });
  await page.addInitScript(() => {
    const loaded = () => {
      if (document.readyState !== "complete" || !window.firstTrussStarted) return;
      if (document.querySelector("#shell, #main[aria-busy]")) setTimeout(loaded, 20);
      else window.firstTrussLoaded();
    };
    addEventListener("load", loaded);
    addEventListener("TrunkApplicationStarted", loaded);
    document.addEventListener("securitypolicyviolation", (event) => {
      window.firstTrussPolicyBreach(`${event.effectiveDirective} blocked ${event.blockedURI}`);
    });
  });

  return {
    /** Every address asked for so far. */
    requests,
    /** Lets pass what a test did on purpose. */
    forgive(pattern) {
      complaints.splice(0, complaints.length, ...complaints.filter((complaint) => !pattern.test(complaint)));
    },
    /** Fails when there was anything to complain about. */
    assertClean() {
      assert.deepEqual(complaints, []);
    },
  };
}
