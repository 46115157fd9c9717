// A person looks at the page once it is painted. The program writes the answer first and the rest of the page with the frames
// that follow, so whatever touches the page waits for those.

/** What touches the page, by what does it. */
const TOUCHES = {
  locator: ["check", "clear", "click", "dispatchEvent", "fill", "press", "pressSequentially", "selectOption", "setChecked", "setInputFiles", "tap"],
  keyboard: ["press", "type"],
  mouse: ["click", "up"],
};

let locatorsWait = false;

/** From now on whatever touches `page` waits until that is painted. */
export function waitsForPaint(page) {
  slow(page.keyboard, TOUCHES.keyboard, () => page);
  slow(page.mouse, TOUCHES.mouse, () => page);
  if (locatorsWait) return;
  locatorsWait = true;
  slow(Object.getPrototypeOf(page.locator("html")), TOUCHES.locator, (locator) => locator.page());
}

function slow(toucher, names, pageOf) {
  for (const name of names) {
    const touch = toucher[name];
    toucher[name] = async function (...given) {
      const page = pageOf(this);
      const isStep = toucher === page.keyboard && /^(Shift\+)?Tab$/.test(given[0]);
      const writes = !isStep || (await isTyped(page));
      const result = await touch.apply(this, given);
      if (writes) await painted(page);
      return result;
    };
  }
}

/** Whether the focus is where something is typed: leaving that writes what was typed, leaving anything else nothing. */
function isTyped(page) {
  return page.evaluate(() => document.activeElement?.matches("input:not([type=radio], [type=checkbox]), textarea, select") ?? false);
}

/** Waits for what the page does once nobody waits for anything: `UNHURRIED_AFTER` of `screens/app.rs` after the last touch. */
export function settled(page) {
  return page.evaluate(() => new Promise((resolve) => setTimeout(resolve, 301)));
}

/** Waits for the rest of the page: `REST_AFTER` of `screens/app.rs` after the next frame. */
async function painted(page) {
  const frames = page.evaluate(
    () =>
      new Promise((resolve) => {
        requestAnimationFrame(() => setTimeout(resolve, 31));
        // A page that is not shown paints no frame.
        setTimeout(resolve, 200);
      }),
  );
  // The touch may have led to another page, or closed this one.
  await frames.catch(() => undefined);
}
