// The Pest repeats screen, through its stable handles.
import { unfold } from "./frame.mjs";

export class PestRepeats {
  constructor(page) {
    this.page = page;
  }

  /** A date by its handle: "next", "last", "pick-next", "hatched" …, or null when none is given. */
  async date(name) {
    const time = this.page.locator(`#answer-${name}`);
    return (await time.count()) > 0 ? time.getAttribute("datetime") : null;
  }

  /** A number by its handle: "done", "treatments", "slugs" or "fewest". */
  async number(name) {
    return Number(await this.page.locator(`#answer-${name}`).getAttribute("value"));
  }

  /** Presses a key. */
  press(name, value) {
    return this.page.locator(`label:has(> input[name="${name}"][value="${value}"])`).click();
  }

  /** Types over what a field holds. */
  fill(name, text) {
    return this.page.locator(`[name="${name}"]`).fill(text);
  }

  /** Answers the three questions of the label, and its numbers. */
  async readLabel({ least, most, picking }) {
    for (const question of ["names-crop", "names-place", "for-home"]) await this.press(question, "yes");
    await this.fill("least-days", least);
    await this.fill("most-uses", most);
    if (picking !== undefined) await this.fill("days-before-picking", picking);
    await this.page.locator("#question").focus();
  }

  /** The days of the list, with the word at their end. */
  dates() {
    return this.page.locator(".dates li").evaluateAll((lines) =>
      lines.map((line) => [line.querySelector("time").dateTime, line.querySelector("b").textContent]),
    );
  }

  /** The same with what is done on each day. */
  lines() {
    return this.page.locator(".dates li").evaluateAll((lines) =>
      lines.map((line) => ({
        date: line.querySelector("time").dateTime,
        name: line.querySelector("small").textContent,
        word: line.querySelector("b").textContent,
      })),
    );
  }

  /** What stands over all dates. */
  labelFirst() {
    return this.page.locator("#label-first").innerText();
  }

  /** The button that notes it. */
  treated() {
    return this.page.locator("#treated button").first();
  }

  /** The text of the calendar file. */
  async calendar() {
    const coming = this.page.waitForEvent("download");
    await this.page.locator("#to-calendar button").click();
    const stream = await (await coming).createReadStream();
    const chunks = [];
    for await (const chunk of stream) chunks.push(chunk);
    return Buffer.concat(chunks).toString("utf8");
  }

  unfold(id) {
    return unfold(this.page, id);
  }
}
