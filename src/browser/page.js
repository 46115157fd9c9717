// Helps when the program has stopped or cannot start, and needs nothing of it. It comes long before the program, in the file of what
// runs later: in the page itself it cost the first paint 7 ms of a slow phone.
(() => {
  const DAY = 24 * 60 * 60 * 1000;
  const NOTEBOOK = "first-truss.notebook";
  const byId = (id) => document.getElementById(id);

  /** What a store that may be blocked or missing says of the notebook. */
  const ask = (what) => {
    try {
      return what(localStorage);
    } catch {
      return null;
    }
  };

  const showSaving = () => {
    const isKept = ask((store) => NOTEBOOK in store);
    for (const button of document.querySelectorAll(".save-kept")) button.hidden = !isKept;
  };

  /** Offers the kept text as it is, so that even a text no program can read can be saved. */
  const saveKept = () => {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([ask((store) => store.getItem(NOTEBOOK)) ?? ""], { type: "text/plain" }));
    link.download = "first-truss-notebook.txt";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), DAY); // revoked at once, some browsers save an empty file
  };

  const halt = (error) => {
    const early = byId("cannot-start");
    const starting = early && byId("shell") && !(error instanceof WebAssembly.RuntimeError);
    if (!starting) early?.remove();
    const panel = starting ? early : byId("stopped");
    panel.hidden = false;
    panel.classList.remove("late");
    showSaving();
    // What would be typed from now on would not be kept.
    if (!starting) for (const dead of document.querySelectorAll(".page")) dead.inert = true;
  };

  // Only what the page's own files throw: a browser's additions may fail as they like.
  const isOurs = (error) =>
    error instanceof WebAssembly.RuntimeError || (error instanceof Error && `${error.stack}`.includes("first-truss-"));
  const hear = (error) => isOurs(error) && halt(error);
  addEventListener("error", ({ error }) => hear(error));
  addEventListener("unhandledrejection", ({ reason }) => hear(reason));
  hear(window.firstTrussFault); // what the loader met before
  for (const button of document.querySelectorAll(".save-kept")) button.addEventListener("click", saveKept);
  setTimeout(showSaving, 1000); // before the message that nothing comes, and not before the first paint
})();
