// The way out: put in place of worker.js on the host, it takes the kept page off every device that comes by.
// What the grower has typed is in another store and stays. No open page is reloaded.

const OURS = `first-truss ${self.registration.scope} `;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => {
  const retire = async () => {
    const names = await caches.keys();
    await Promise.all(names.filter((name) => name.startsWith(OURS)).map((name) => caches.delete(name)));
    await self.registration.unregister();
  };
  event.waitUntil(retire());
});
