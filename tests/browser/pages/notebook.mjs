// The Notebook, through its stable handles. Fields are those of every screen: see `MorningWater`.
import { MorningWater } from "./morning-water.mjs";

export class Notebook extends MorningWater {
  /** The button that saves the text that was set aside at `position` (from 1). */
  saveSetAside(position = 1) {
    return this.page.getByRole("button", { name: `Save set-aside text ${position} to a file` });
  }
}
