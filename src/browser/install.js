// Offers once to install the page, in the page's own words. It does not wait for the program, which may be long in coming.
(() => {
  const SHOWN = "first-truss.install-hint";
  const NOTEBOOK = "first-truss.notebook";
  const [bar, note, again] = ["install-hint", "install-note", "install-again"].map((id) => document.getElementById(id));
  const { userAgent, maxTouchPoints, standalone } = navigator;
  // A tablet of this family says that it is a desktop, but no such desktop is touched.
  const byHand = /iPhone|iPad|iPod/.test(userAgent) || (/Macintosh/.test(userAgent) && maxTouchPoints > 1);
  const installed = standalone === true || matchMedia("(display-mode: standalone), (display-mode: minimal-ui)").matches;
  let offer = null; // the browser's own dialogue, held back until it is asked for
  let due = false;
  let touched = 0;

  const say = (box, way) => {
    for (const line of box.querySelectorAll("[data-way]")) line.hidden = line.dataset.way !== way;
  };

  // Where nothing can be kept, "once" cannot be remembered, so there it is never.
  const isFirstTime = () => {
    try {
      if (localStorage.getItem(SHOWN)) return false;
      // By hand, what was entered would stay behind: then the Notebook says so instead.
      if (byHand && localStorage.getItem(NOTEBOOK)) return false;
      localStorage.setItem(SHOWN, "shown");
      return localStorage.getItem(SHOWN) === "shown";
    } catch {
      return false;
    }
  };

  const show = () => {
    // Nothing may appear under a finger that is at work, nor over the other offer.
    if (touched || !document.getElementById("new-version").hidden) due = true;
    else if (isFirstTime()) {
      say(bar, byHand ? "hand" : "offer");
      bar.hidden = false;
    }
  };

  const hide = () => {
    const hadFocus = bar.contains(document.activeElement);
    bar.hidden = true;
    if (hadFocus) document.getElementById("question")?.focus();
  };

  const install = () => {
    hide();
    offer?.prompt();
    offer = null;
    follow();
  };

  // The Notebook keeps the offer for those who said "not now".
  const follow = () => {
    let way = offer && "offer";
    if (byHand && !installed) {
      way = "hand";
      try {
        if (localStorage.getItem(NOTEBOOK)) way = "late";
      } catch {}
    }
    note.hidden = !way || location.hash !== "#notebook";
    say(note, way);
  };

  addEventListener("pointerdown", () => {
    clearTimeout(touched);
    touched = setTimeout(() => {
      touched = 0;
      if (!due) return;
      due = false;
      show();
    }, 1500);
  }, true);
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    offer = event;
    follow();
    if (!installed) show();
  });
  addEventListener("appinstalled", () => {
    offer = null;
    hide();
    follow();
  });
  addEventListener("hashchange", follow);
  bar.addEventListener("keydown", (event) => event.key === "Escape" && hide());
  document.getElementById("install-later").addEventListener("click", hide);
  document.getElementById("install-now").addEventListener("click", install);
  again.addEventListener("click", install);
  if (byHand && !installed) show();
  follow();
})();
