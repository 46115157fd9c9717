// The Feed mix screen, through its stable handles.
import { MorningWater } from "./morning-water.mjs";

export class FeedMix extends MorningWater {
  /** Feed for the can, ml or g. */
  amount() {
    return this.answer("feed");
  }

  /** Whether it is time, in words. */
  due() {
    return this.page.locator("#answer-due").innerText();
  }

  /** The next day, `YYYY-MM-DD`; empty where none can be told. */
  async next() {
    const day = this.page.locator("#answer-next-feed");
    return (await day.count()) === 0 ? "" : day.getAttribute("datetime");
  }

  /** The button that notes the feed, or takes that back. */
  fed() {
    return this.page.locator("#fed").getByRole("button");
  }

  /** What may be behind what looks wrong, the likeliest first, each with how likely. */
  async causes() {
    const found = await this.page.locator("#causes h3").allInnerTexts();
    return found.map((words) => words.replace(/\s+/g, " ").trim());
  }

  /** Looks at a part of the plant that shows something. */
  async see(part, look) {
    await this.press("sign-part", part);
    await this.press("sign-look", look);
    await this.page.locator("#causes").waitFor();
  }

  /** Waits until the can takes another amount than `before`. */
  async changed(before) {
    await this.page.waitForFunction((before) => document.getElementById("answer-feed").value !== String(before), before);
    return this.amount();
  }
}
