// What stands on every screen: the skip link, the strip, the tabs, the notice and the one voice of the page.
export class Frame {
  constructor(page) {
    this.page = page;
  }

  /** Goes to a screen by its tab or, for the Notebook, by the strip's link. */
  async goTo(name) {
    await this.page.locator(".tabs a, .strip a").filter({ hasText: name }).click();
    await this.page.waitForFunction((name) => document.title.startsWith(name), name);
  }

  /** The screen's `h1`. */
  question() {
    return this.page.locator("#question");
  }

  /** What is wrong with the kept notebook, over every screen. */
  notice() {
    return this.page.locator("#notice");
  }

  /** What a screen reader is told of its own accord. */
  voice() {
    return this.page.locator("#said");
  }
}

/** Opens the disclosure `id` of `page`, if it is shut, and waits for what it holds: that is made when it is opened. */
export async function unfold(page, id) {
  const disclosure = page.locator(`#${id}`);
  if ((await disclosure.getAttribute("open")) === null) await disclosure.locator("> summary").click();
  await page.waitForFunction((id) => document.querySelector(`#${id} > .in`)?.childElementCount !== 0, id);
}
