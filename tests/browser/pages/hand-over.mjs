// Handing over by a link, and what comes by one, through their stable handles.
import jsQR from "jsqr";

import { pixels } from "../support/pixels.mjs";
import { MorningWater } from "./morning-water.mjs";

export class HandOver extends MorningWater {
  /** Makes the link with what is chosen, and reads it as text. */
  async link(plot = "") {
    await this.unfold("share");
    if (plot) await this.fill("share-plot", plot);
    await this.page.getByRole("button", { name: "Make the link" }).click();
    return this.text("share-address");
  }

  /** A link as it stands in its field. */
  text(id) {
    return this.page.locator(`#${id}`).inputValue();
  }

  /** What a decoder of another make reads in the square code, from a picture of the screen. Like a camera it looks a few times. */
  async square() {
    for (let look = 0; look < 4; look += 1) {
      const picture = await this.page.locator(".square-code").screenshot();
      const other = await this.page.context().newPage();
      const { width, height, rgba } = await pixels(other, picture, "image/png");
      await other.close();
      const read = jsQR(new Uint8ClampedArray(rgba), width, height);
      if (read) return read.data;
    }
    return null;
  }

  /** The lines of the round that can be ticked, as they are read. */
  round() {
    return this.page.locator("#round .tick").allInnerTexts();
  }

  /** Ticks a line of the round, or takes the tick back. */
  tick(words) {
    return this.page.locator("#round .tick").filter({ hasText: words }).click();
  }

  /** Whether a line of the round is ticked. */
  ticked(words) {
    return this.page.locator("#round .tick").filter({ hasText: words }).locator("input").isChecked();
  }
}
