// The bar that offers a new version, and what the browser keeps behind the page.
export class Versions {
  constructor(page) {
    this.page = page;
    this.bar = page.locator("#new-version");
  }

  /** Waits until the page is kept whole, and its worker answers for it. */
  async kept() {
    await this.page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated", null, { timeout: 20_000 });
  }

  /** Has the browser look for a new version now, and waits until its files have come or have been refused. */
  look() {
    return this.page.evaluate(async () => {
      const registration = await navigator.serviceWorker.getRegistration();
      await registration.update().catch(() => {});
      const worker = registration.installing;
      if (!worker) return registration.waiting ? "installed" : "nothing new";
      return new Promise((resolve) => {
        worker.addEventListener("statechange", () => resolve(worker.state));
      });
    });
  }

  async offered() {
    await this.bar.waitFor({ state: "visible", timeout: 10_000 });
  }

  accept() {
    return this.page.locator("#new-version-now").click();
  }

  refuse() {
    return this.page.locator("#new-version-later").click();
  }

  /** The caches of the whole origin, by name. */
  caches() {
    return this.page.evaluate(() => caches.keys());
  }

  /** How many files the cache of this name holds. */
  count(name) {
    return this.page.evaluate(async (name) => (await (await caches.open(name)).keys()).length, name);
  }

  /** Which version of the page this is; the first says nothing. */
  version() {
    return this.page.getAttribute("html", "data-version");
  }
}
