// What runs in the measured page itself, from before its first line.

/** Notes paints, layout shifts, long tasks and the frame that showed the first answer in `window.firstTrussSeen`. */
export function watchPage() {
  const seen = { firstPaint: null, answer: null, layoutShift: 0, longTasks: [], program: null };
  window.firstTrussSeen = seen;
  const observe = (type, note) => {
    new PerformanceObserver((list) => list.getEntries().forEach(note)).observe({ type, buffered: true });
  };
  observe("paint", ({ name, startTime }) => {
    if (name === "first-contentful-paint") seen.firstPaint = startTime;
  });
  observe("layout-shift", ({ value, hadRecentInput }) => {
    if (!hadRecentInput) seen.layoutShift += value;
  });
  observe("longtask", ({ startTime, duration }) => seen.longTasks.push({ startTime, duration }));
  window.addEventListener("TrunkApplicationStarted", ({ detail }) => {
    seen.program = detail.wasm;
  });

  /** Calls `then` once the frame that is being made has been painted: a message waits until the frame is done. */
  window.firstTrussAfterFrame = (then) => {
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => then(performance.now());
      port2.postMessage(null);
    });
  };
  const look = () => {
    if (/\p{N}/u.test(document.getElementById("answer-dose")?.textContent ?? "")) {
      // This frame will show it: the message that follows it tells when.
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = () => {
        seen.answer = performance.now();
      };
      port2.postMessage(null);
    } else {
      requestAnimationFrame(look);
    }
  };
  requestAnimationFrame(look);
}

/** Times each keystroke from the key to the painted frame with another answer; the times are in `window.firstTrussKeystrokes`. */
export function timeKeystrokes() {
  const times = [];
  window.firstTrussKeystrokes = times;
  const answer = () => document.getElementById("answer-dose");
  let pressed = null;
  let before = null;
  addEventListener(
    "keydown",
    (event) => {
      pressed = event.timeStamp;
      before = answer().value;
    },
    true,
  );
  new MutationObserver(() => {
    if (pressed === null || answer()?.value === before) return;
    const start = pressed;
    pressed = null;
    window.firstTrussAfterFrame((painted) => times.push(painted - start));
  }).observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });
}
