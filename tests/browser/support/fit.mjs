// Whether everything on a page has room: nothing to scroll to sideways, no word cut off, none over another.

/**
 * What does not fit on `page`, a line each. A native list shows its chosen entry on one line and cuts what is too long:
 * that is looked at with the usual text only, for with larger text the open list tells it.
 */
export async function misfits(page, { lists = true } = {}) {
  return page.evaluate(async (lists) => {
    // What is as high as what it holds is told so in the frame that follows a change.
    await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)));
    const found = [];
    const root = document.documentElement;
    if (root.scrollWidth > window.innerWidth) {
      const beyond = [...document.querySelectorAll("main *, .strip *, .foot *")].filter(
        (element) => element.getBoundingClientRect().right > window.innerWidth + 1 && !element.closest(".unseen"),
      );
      found.push(`${root.scrollWidth} wide of ${window.innerWidth}: ${beyond.map(named).slice(0, 3)}`);
    }

    const words = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const text = walker.currentNode;
      const element = text.parentElement;
      if (!text.data.trim() || !element.checkVisibility({ visibilityProperty: true })) continue;
      if (element.closest(".unseen, .skip, svg, option, noscript, script, style")) continue;
      const range = document.createRange();
      range.selectNodeContents(text);
      for (const line of range.getClientRects()) {
        // The line box is taller than its letters: what lies between their middles is enough to see them collide.
        const size = parseFloat(getComputedStyle(element).fontSize);
        const middle = (line.top + line.bottom) / 2;
        const letters = { left: line.left, right: line.right, top: middle - size * 0.3, bottom: middle + size * 0.3 };
        words.push({ element, text: text.data.trim().slice(0, 30), ...letters });
      }
    }

    const looks = new Map();
    /** How an element is drawn, asked once: nothing changes meanwhile. */
    const lookOf = (box) => {
      let look = looks.get(box);
      if (look) return look;
      const { display, borderTopWidth, backgroundColor, overflowX, overflowY, clipPath } = getComputedStyle(box);
      const framed = borderTopWidth !== "0px" || backgroundColor !== "rgba(0, 0, 0, 0)";
      const clips = overflowX !== "visible" || clipPath !== "none";
      look = { holds: (framed || clips) && display !== "inline", edge: box.getBoundingClientRect(), overflowY };
      looks.set(box, look);
      return look;
    };
    for (const word of words) {
      if (word.left < -1 || word.right > window.innerWidth + 1) found.push(`"${word.text}" leaves the screen`);
      for (let box = word.element; box && box !== document.body; box = box.parentElement) {
        const { holds, edge, overflowY } = lookOf(box);
        if (!holds) continue;
        const out = [edge.left - word.left, word.right - edge.right];
        // What scrolls by itself shows in time what is below its edge.
        if (overflowY !== "auto") out.push(edge.top - word.top, word.bottom - edge.bottom);
        else if (box.scrollWidth > box.clientWidth) found.push(`${named(box)} scrolls sideways`);
        if (Math.max(...out) > 1.5) found.push(`"${word.text}" leaves ${named(box)} by ${Math.max(...out).toFixed(0)} px`);
      }
    }

    // What floats over the page is meant to lie over words.
    const grounded = words.filter(({ element }) => !element.closest(".tabs, .foot, .halt, .offer, .desk"));
    grounded.sort((one, other) => one.top - other.top);
    for (const [index, one] of grounded.entries()) {
      for (let next = index + 1; next < grounded.length && grounded[next].top < one.bottom - 1.5; next += 1) {
        const other = grounded[next];
        const across = Math.min(one.right, other.right) - Math.max(one.left, other.left);
        const down = Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top);
        if (across > 1.5 && down > 1.5) found.push(`"${one.text}" lies over "${other.text}"`);
      }
    }

    for (const field of document.querySelectorAll("input[type=text]")) {
      // A long name and a text that cannot be a number may be scrolled in their field, as any text that is typed.
      const isNumber = field.inputMode && field.ariaInvalid !== "true";
      if (isNumber && field.scrollWidth > field.clientWidth + 1) {
        found.push(`"${field.value}" does not fit its field ${field.id}`);
      }
    }
    for (const list of lists ? document.querySelectorAll("select") : []) {
      if (!list.checkVisibility()) continue;
      const shown = list.selectedOptions[0]?.text ?? "";
      const copy = document.createElement("span");
      copy.style.cssText = "position:absolute;visibility:hidden;white-space:nowrap";
      copy.style.font = getComputedStyle(list).font;
      copy.style.letterSpacing = getComputedStyle(list).letterSpacing;
      copy.style.wordSpacing = getComputedStyle(list).wordSpacing;
      copy.textContent = shown;
      document.body.append(copy);
      const needed = copy.getBoundingClientRect().width;
      copy.remove();
      const style = getComputedStyle(list);
      const room = list.clientWidth - parseFloat(style.paddingLeft) - parseFloat(style.paddingRight);
      if (needed > room) found.push(`"${shown}" of the list ${list.id} needs ${needed.toFixed(0)} px and has ${room.toFixed(0)}`);
    }
    return [...new Set(found)];

    function named(element) {
      const name = element.id ? `#${element.id}` : element.classList[0] ? `.${element.classList[0]}` : "";
      return element.tagName.toLowerCase() + name;
    }
  }, lists);
}

/** Doubles the size of the text, as the browser's own setting does, for as long as the page is open. */
export async function doubleText(page) {
  const session = await page.context().newCDPSession(page);
  await session.send("Page.setFontSizes", { fontSizes: { standard: 32, fixed: 26 } });
}

/** The spacing that a reader may ask for: WCAG 2.2, success criterion 1.4.12. Returns the style that does it. */
export function spaceText(page) {
  return page.addStyleTag({
    content: `* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }
      p { margin-bottom: 2em !important }`,
  });
}
