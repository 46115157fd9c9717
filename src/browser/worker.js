// Keeps the page for where there is no signal: one cache for each build, filled whole or not at all.
// `cargo task seal` writes the two constants in front: BUILD, and FILES as [path, "sha256-…" of its bytes].

const SCOPE = self.registration.scope;
// With the scope and a space behind it, no copy of the page in another folder takes this cache for its own.
const OURS = `first-truss ${SCOPE} `;
const CACHE = OURS + BUILD;
const address = (path) => new URL(path, SCOPE).href;
const KEPT = new Set(FILES.map(([path]) => address(path)));
const PAGE = address("index.html");

// The browser's own check of the bytes refuses whatever is not exactly what was sealed, an error page among it.
const fetchSealed = async ([path, integrity]) => {
  const response = await fetch(address(path), { cache: "reload", integrity });
  if (!response.ok) throw new Error(`${path} came with status ${response.status}.`);
  // An answer that came by a redirect may not be given to a navigation.
  return response.redirected ? new Response(response.body, { headers: response.headers }) : response;
};

const isWhole = async () => (await (await caches.open(CACHE)).keys()).length === FILES.length;

const fill = async () => {
  // A host that goes back to the build in use asks for this cache again: it must not be touched.
  if (await isWhole()) return;
  try {
    const cache = await caches.open(CACHE);
    // One after another: a weak signal carries one file better than ten at once.
    for (const file of FILES) await cache.put(address(file[0]), await fetchSealed(file));
    // Another build may have been switched to meanwhile, and have cleared this cache away.
    if (!(await isWhole())) throw new Error("The cache was cleared while it was filled.");
  } catch (error) {
    await caches.delete(CACHE);
    throw error; // The installation fails, and the version in use stays.
  }
};

const clearOthers = async () => {
  // Another build that is on its way in needs its own cache; once in, it clears up itself.
  if (self.registration.installing || self.registration.waiting) return;
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(OURS) && name !== CACHE).map((name) => caches.delete(name)));
};

const kept = async (href) => {
  try {
    return await (await caches.open(CACHE)).match(href, { ignoreVary: true });
  } catch {
    // A store that is broken or full keeps nothing: what the host has is all there is.
  }
};

const page = async (request) => (await kept(PAGE)) ?? fetch(request);
const file = async (request, href) => (await kept(href)) ?? fetch(request);
// An address of no file of ours may be another page's. Without signal it leads to ours, from where its links lead on.
const elsewhere = (request) => fetch(request).catch(() => Response.redirect(SCOPE));

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(clearOthers().then(() => self.clients.claim())));
self.addEventListener("message", (event) => event.data === "switch" && self.skipWaiting());
self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET") return;
  const { origin, pathname } = new URL(request.url);
  const href = origin + pathname; // whatever stands behind "?" names no other file
  if (request.mode === "navigate") {
    if (href === SCOPE || href === PAGE) return event.respondWith(page(request));
    if (!KEPT.has(href)) return event.respondWith(elsewhere(request));
  }
  if (KEPT.has(href)) event.respondWith(file(request, href));
});
