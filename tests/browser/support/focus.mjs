// Where the focus is, whether it can be seen there, and the way of the Tab key.

/** What has the focus, as a grower would know it, and everything that is wrong with the place, a line each. */
export function focused(page) {
  return page.evaluate(() => {
    const element = document.activeElement;
    if (!element || element === document.body || element === document.documentElement) return null;
    const name = element.id || element.getAttribute("aria-label") || element.getAttribute("href") || element.textContent.trim();
    const what = element.type === "radio" ? `${element.name} ${element.value}` : name;
    // A drawn key stands for its button, which takes no room.
    const drawn = /radio|checkbox/.test(element.type) ? element.nextElementSibling : element;
    const faults = [];

    // The ring of some stands round what holds them.
    const ringed = [drawn, drawn.closest(".stepper, .field, .lbl")].filter(Boolean).find((box) => {
      const { outlineStyle, outlineWidth } = getComputedStyle(box);
      return outlineStyle !== "none" && parseFloat(outlineWidth) >= 2;
    });
    if (!ringed) faults.push("no ring");
    else {
      const { outlineColor, outlineOffset } = getComputedStyle(ringed);
      let ground = parseFloat(outlineOffset) < 0 ? ringed : ringed.parentElement;
      while (ground.parentElement && getComputedStyle(ground).backgroundColor === "rgba(0, 0, 0, 0)") ground = ground.parentElement;
      const { backgroundColor } = getComputedStyle(ground);
      const ratio = contrast(outlineColor, backgroundColor);
      if (ratio < 3) faults.push(`a ring of ${outlineColor} on ${backgroundColor}, ${ratio.toFixed(1)} to 1`);
    }

    const { left, right, top, bottom } = drawn.getBoundingClientRect();
    const [across, down] = [right - left, bottom - top];
    if (across < 1 || down < 1) faults.push("takes no room");
    for (const [x, y] of [[0.5, 0.5], [0.08, 0.12], [0.92, 0.12], [0.08, 0.88], [0.92, 0.88]]) {
      const [at, under] = [left + across * x, top + down * y];
      const there = document.elementFromPoint(at, under);
      const bar = there?.closest(".tabs, .foot, .strip, .offer, .halt");
      if (!there) faults.push(`outside the window at ${at.toFixed()}, ${under.toFixed()}`);
      else if (bar && !bar.contains(element)) faults.push(`under ${bar.className} at ${at.toFixed()}, ${under.toFixed()}`);
    }
    return { what, faults: faults.map((fault) => `${what}: ${fault}`) };

    /** The ratio that WCAG 2.2 defines; 3 to 1 is the least for what is no text. */
    function contrast(one, other) {
      const luminance = (colour) => {
        const [red, green, blue] = colour.match(/[\d.]+/g).map((part) => {
          const share = Number(part) / 255;
          return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
        });
        return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
      };
      const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
      return (light + 0.05) / (dark + 0.05);
    }
  });
}

/** Presses `key` until the focus has gone round, and gives every stop in order; more stops than `most` are a trap. */
export async function stops(page, key, most = 150) {
  const found = [];
  for (;;) {
    await page.keyboard.press(key);
    const stop = await focused(page);
    // Past the last stop the focus leaves the page, or begins anew.
    if (!stop || stop.what === found[0]?.what) return found;
    found.push(stop);
    if (found.length > most) throw new Error(`the focus does not go round: ${found.slice(-6).map(({ what }) => what)}`);
  }
}

/** Presses Tab until the focus is on `selector`. */
export async function tabTo(page, selector, key = "Tab", most = 90) {
  const passed = [];
  for (let presses = 0; presses < most; presses += 1) {
    await page.keyboard.press(key);
    const stop = await focused(page);
    if (stop?.faults.length) throw new Error(stop.faults.join("\n"));
    passed.push(stop?.what);
    if (await page.evaluate((selector) => document.activeElement.matches(selector), selector)) return passed;
  }
  throw new Error(`${selector} is not reached: ${passed.join(", ")}`);
}
