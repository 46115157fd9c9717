// What runs in the measured page itself, from before its first line.

/**
 * Notes paints, layout shifts, long tasks and the frame that showed the first answer in `window.firstTrussSeen`; its `answered` is
 * kept when there is that answer.
 */
export function watchPage() {
  const seen = { firstPaint: null, answer: null, answered: null, layoutShift: 0, longTasks: [], program: null };
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

  /** While a frame is being made, calls `then` once it has been painted: a message waits until the frame is done. */
  window.firstTrussAfterThisFrame = (then) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => then(performance.now());
    port2.postMessage(null);
  };
  /** Calls `then` once the next frame has been painted. */
  window.firstTrussAfterFrame = (then) => {
    requestAnimationFrame(() => window.firstTrussAfterThisFrame(then));
  };
  /** Kept once the frame is painted by whose making `isThere` holds: its time. */
  window.firstTrussShown = (isThere) =>
    new Promise((resolve) => {
      const look = () => (isThere() ? window.firstTrussAfterThisFrame(resolve) : requestAnimationFrame(look));
      requestAnimationFrame(look);
    });
  const isAnswered = () => /\p{N}/u.test(document.getElementById("answer-dose")?.textContent ?? "");
  seen.answered = window.firstTrussShown(isAnswered).then((painted) => (seen.answer = painted));
}

/**
 * Waits in the page of `session` until the promise that `expression` names is kept, at most `longest` milliseconds: whether it was.
 *
 * By a line of the browser's own protocol: a waiting function of the driver first puts a large script into the page, which takes
 * 80 ms on a slowed processor, and so delays what is waited for.
 */
export async function kept(session, expression, longest) {
  const late = `new Promise((resolve) => setTimeout(resolve, ${longest}, false))`;
  const { result, exceptionDetails } = await session.send("Runtime.evaluate", {
    expression: `Promise.race([${expression}.then(() => true), ${late}])`,
    awaitPromise: true,
    returnByValue: true,
  });
  if (exceptionDetails) throw new Error(`${expression}: ${exceptionDetails.text}`);
  return result.value;
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
