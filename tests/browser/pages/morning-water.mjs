// The Morning water screen, through its stable handles.
import { unfold } from "./frame.mjs";

export class MorningWater {
  constructor(page) {
    this.page = page;
  }

  /** Litres for each plant of the first group, or of the group at `position` (from 1). */
  dose(position = 1) {
    return this.#litres("answer-dose", position);
  }

  low(position = 1) {
    return this.#litres("answer-dose-low", position);
  }

  high(position = 1) {
    return this.#litres("answer-dose-high", position);
  }

  /** Litres for all plants together. */
  total() {
    return this.#litres("answer-total", 1);
  }

  /** Litres in the butt, the days that they last, or another answer that may be absent. */
  async answer(name) {
    const value = await this.page.locator(`#answer-${name}`).getAttribute("value");
    if (!/^\d+(\.\d+)?$/.test(value ?? "")) {
      throw new Error(`answer-${name} is not a number: ${value}`);
    }
    return Number(value);
  }

  /** The dose as the grower reads it. */
  figure() {
    return this.page.locator("#answer-dose").innerText();
  }

  /** What is taken for granted, in words. */
  assumptions() {
    return this.page.locator("#assumed").innerText();
  }

  /** Presses a drawn key, such as `press("sky", "clear")`. */
  press(name, value) {
    return this.page.locator(`label:has(> input[name="${name}"][value="${value}"])`).click();
  }

  /** The pressed key's value, or null. */
  pressed(name) {
    return this.page.evaluate(
      (name) => document.querySelector(`input[name="${name}"]:checked`)?.value ?? null,
      name,
    );
  }

  field(name) {
    return this.page.locator(`[name="${name}"]`);
  }

  /** The buttons beside a field. */
  more(name) {
    return this.page.locator(`.stepper:has([name="${name}"]) button`).last().click();
  }

  /** Opens a disclosure: "fine-tune", "days-table", "change-day", "more-plants" or "working". */
  unfold(id) {
    return unfold(this.page, id);
  }

  /** Types over what a field holds; `folded` is the disclosure it may be hidden in. */
  async fill(name, text, folded) {
    if (folded) await this.unfold(folded);
    await this.field(name).fill(text);
  }

  /** Chooses from a list by an entry's value. */
  choose(name, value) {
    return this.field(name).selectOption(value);
  }

  /** What stands in the place of the button that notes the water, or the button's own words. */
  noted() {
    return this.page.locator("#watered").innerText();
  }

  /** The button that notes today's water, or takes that back. */
  watered() {
    return this.page.locator("#watered").getByRole("button");
  }

  /** The rows of the last days, newest first: the day, given, used, the compost. */
  async days() {
    await this.unfold("days-table");
    await this.page.locator("#days-table tbody tr").first().waitFor();
    const rows = await this.page.locator("#days-table tbody tr").all();
    return Promise.all(rows.map((row) => row.locator("th, td").allInnerTexts()));
  }

  /** Opens the page of a day so many days ago. */
  async openDay(ago) {
    await this.unfold("change-day");
    await this.choose("day", String(ago));
  }

  add() {
    return this.#button("Add a group");
  }

  copy() {
    return this.#button("Copy this one");
  }

  remove() {
    return this.#button("Remove it");
  }

  /** Empties a field as a person does, then types one character after another; what stood there after each. */
  async typeSlowly(name, text) {
    const field = this.field(name);
    await field.focus();
    await field.press("ControlOrMeta+a");
    await field.press("Delete");
    const stood = [];
    for (const character of text) {
      await this.page.keyboard.type(character);
      stood.push(await field.inputValue());
    }
    return stood;
  }

  /** The names of the text fields that are marked as wrong. */
  wrong() {
    return this.page.locator('input[aria-invalid="true"]').evaluateAll((fields) => fields.map(({ name }) => name));
  }

  /** Leaves the field that has the focus. */
  leave() {
    return this.page.evaluate(() => document.activeElement?.blur());
  }

  /** The names of the groups, in order. */
  groups() {
    return this.page.locator('label:has(> input[name="group"])').allInnerTexts();
  }

  #button(words) {
    return this.page.getByRole("button", { name: words, exact: true }).click();
  }

  async #litres(id, position) {
    const value = await this.page.locator(position === 1 ? `#${id}` : `#${id}-${position}`).getAttribute("value");
    if (!/^\d+(\.\d+)?$/.test(value ?? "")) {
      throw new Error(`${id} is not a number of litres: ${value}`);
    }
    return Number(value);
  }
}
