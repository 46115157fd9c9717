// Notes everything that a page must not do, from before its first line runs.
import assert from "node:assert/strict";

/**
 * Watches `page`, which has not been opened yet. Its complaints are: an error or warning in the console, an error
 * nobody caught, a breach of the content security policy, a request that failed or was refused, and a request to
 * another origin than `address`.
 */
export async function watch(page, address) {
  const complaints = [];
  const requests = [];
  const origin = new URL(address).origin;

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
  });
  page.on("requestfailed", (request) => {
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
  await page.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", (event) => {
      window.firstTrussPolicyBreach(`${event.effectiveDirective} blocked ${event.blockedURI}`);
    });
  });

  return {
    /** Every address asked for so far. */
    requests,
    /** Fails when there was anything to complain about. */
    assertClean() {
      assert.deepEqual(complaints, []);
    },
  };
}
