// Keeps the page for where there is no signal, and offers a new version.
(() => {
  const DAY = 24 * 60 * 60 * 1000;
  const CHECKED = "first-truss.update-checked";
  const REFUSED = "first-truss.update-refused";
  const byId = (id) => document.getElementById(id);

  // A store may be blocked, full or missing: then nothing is remembered, and all else works.
  const read = (store, key) => {
    try {
      return window[store].getItem(key);
    } catch {
      return null;
    }
  };
  const write = (store, key, value) => {
    try {
      window[store].setItem(key, value);
    } catch {}
  };

  const workers = navigator.serviceWorker;
  // `cargo task seal` fills in the policy. A page under development has none, and keeps nothing.
  const policy = document.querySelector('meta[http-equiv="Content-Security-Policy"]');
  if (!workers || !policy.content) return;

  const bar = byId("new-version");
  const spoken = byId("said");
  const tabs = new BroadcastChannel(`first-truss ${new URL("./", location)}`);
  let registration = null;
  let touchedAt = -Infinity;
  // A copy of the page in a folder above may answer for this one until it has a worker of its own.
  let hadWorker = workers.controller?.scriptURL === new URL("worker.js", location).href;
  let asked = false;
  let switched = false;

  const show = () => {
    // The first worker of all waits for a moment too, but for nobody.
    if (!registration?.waiting || !registration.active) return;
    if (asked || !bar.hidden || read("sessionStorage", REFUSED)) return;
    const rest = touchedAt + 1500 - performance.now();
    // Nothing may appear under a finger that is at work, nor over the other offer.
    if (rest > 0 || !byId("install-hint")?.hidden) return void setTimeout(show, Math.max(rest, 500));
    bar.hidden = false;
    spoken.textContent = bar.querySelector("p").textContent;
  };

  const hide = () => {
    const hadFocus = bar.contains(document.activeElement);
    bar.hidden = true;
    spoken.textContent = "";
    if (hadFocus) byId("question")?.focus();
  };

  const refuse = () => {
    hide();
    write("sessionStorage", REFUSED, "yes");
  };

  // One tab is asked and all turn, or an old page would stay on top of the new files. Each has kept what was typed.
  const turn = () => {
    if (!asked || !switched) return;
    asked = false;
    location.reload();
  };

  const accept = () => {
    hide();
    asked = true;
    turn();
  };

  byId("new-version-now").addEventListener("click", () => {
    accept();
    tabs.postMessage("accepted");
    registration.waiting?.postMessage("switch");
  });
  byId("new-version-later").addEventListener("click", () => {
    refuse();
    tabs.postMessage("refused");
  });
  bar.addEventListener("keydown", (event) => event.key === "Escape" && refuse());
  tabs.addEventListener("message", ({ data }) => (data === "accepted" ? accept() : refuse()));
  workers.addEventListener("controllerchange", () => {
    // The first worker of all takes over a page that lacks nothing.
    switched = hadWorker || asked;
    hadWorker = true;
    turn();
  });
  addEventListener("pointerdown", () => (touchedAt = performance.now()), true);

  /** Looks for a new version when the last look is a day old, or lies in the future since the clock was set. */
  const look = () => {
    const now = Date.now();
    if (Math.abs(now - Number(read("localStorage", CHECKED))) < DAY) return;
    write("localStorage", CHECKED, `${now}`);
    registration.update().catch(() => {}); // no signal: another day
  };

  const notice = () => {
    show();
    registration.installing?.addEventListener("statechange", show);
  };

  const register = async () => {
    try {
      // Where scripts' addresses are guarded too, this one is vouched for.
      const script = window.trustedTypes
        ? trustedTypes.createPolicy("first-truss", { createScriptURL: () => "worker.js" }).createScriptURL("")
        : "worker.js";
      registration = await workers.register(script, { scope: "./", updateViaCache: "none" });
    } catch {
      return; // The browser forbids it, or the files did not all come: the page works as long as there is signal.
    }
    registration.addEventListener("updatefound", notice);
    notice();
    look();
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState !== "visible") return;
      look();
      show();
    });
  };

  // After the page's own files, which must not share a weak signal; and when they do not come, all the same. A program that has
  // started (its loader leaves its bindings) may leave the shell for a frame more.
  let isAsked = false;
  const once = () => {
    if (!isAsked) register();
    isAsked = true;
  };
  if (byId("shell") && !window.wasmBindings) {
    addEventListener("TrunkApplicationStarted", () => setTimeout(once));
    setTimeout(once, 10_000);
  } else once();
})();
