// Without a finger or a mouse: every control is reached, seen while it has the focus, and left again.
import assert from "node:assert/strict";

import { doubleText } from "../support/fit.mjs";
import { focused, stops, tabTo } from "../support/focus.mjs";
import { cleanJourney, journey } from "../support/journey.mjs";
import { offerVersion } from "../support/states.mjs";
import { open, reload } from "../support/visit.mjs";

const WINDOWS = [
  { name: "390 wide", viewport: { width: 390, height: 844 } },
  { name: "1280 wide and dark", viewport: { width: 1280, height: 900 }, colorScheme: "dark" },
  { name: "320 wide with doubled text", viewport: { width: 320, height: 844 }, double: true },
];

/** What a keyboard must reach: one stop for each group of radio buttons, and whatever else can be pressed or typed in. */
const reachable = (page) =>
  page.evaluate(() => {
    const all = [...document.querySelectorAll("a[href], button, input, select, summary")].filter(
      (element) => element.checkVisibility() && !element.closest("[hidden], [inert]"),
    );
    const groups = new Set(all.filter(({ type }) => type === "radio").map(({ name }) => name));
    return all.filter(({ type }) => type !== "radio").length + groups.size;
  });

for (const { name, viewport, colorScheme, double } of WINDOWS) {
  cleanJourney(`Tab goes through everything and round, ${name}`, { viewport, colorScheme }, async ({ page, water }) => {
    // A chosen key, on which the usual ink is another.
    await water.press("sky", "clear");
    await water.copy();
    await reload(page);
    if (double) await doubleText(page);
    // Not by a click, which would be where Tab goes on from.
    await page.evaluate(() => document.querySelectorAll("details").forEach((details) => (details.open = true)));
    const there = await stops(page, "Tab");
    assert.deepEqual(there.flatMap(({ faults }) => faults), []);
    assert.equal(there[0].what, "#question", "the way past the strip and the tabs comes first");
    assert.equal(there.length, await reachable(page));
    const back = await stops(page, "Shift+Tab");
    assert.deepEqual(back.flatMap(({ faults }) => faults), []);
    assert.equal(back.length, there.length, "the same stops backwards");
  });
}

cleanJourney("a whole morning by keyboard", {}, async ({ page, water, frame }) => {
  const press = (...keys) => keys.reduce((before, key) => before.then(() => page.keyboard.press(key)), Promise.resolve());
  const at = async () => (await focused(page))?.what;

  await press("Tab", "Enter");
  assert.equal(await at(), "question", "past the strip and the tabs");

  const mixed = await water.dose();
  await tabTo(page, "[name=sky]");
  await press("Space");
  assert.equal(await water.pressed("sky"), "clear");
  const clear = await water.dose();
  assert.ok(clear > mixed);
  await press("ArrowRight", "ArrowRight", "ArrowRight");
  assert.equal(await water.pressed("sky"), "dull");
  assert.equal(await at(), "sky dull");
  assert.ok((await water.dose()) < clear);
  await press("ArrowLeft", "ArrowLeft", "ArrowLeft");
  assert.equal(await water.pressed("sky"), "clear");

  await tabTo(page, "[name=feel]");
  await press("Space");
  assert.equal(await water.pressed("feel"), "dry");

  await tabTo(page, "#fine-tune > summary");
  await press("Enter");
  await tabTo(page, "#warmest");
  await page.keyboard.type("31");
  const hot = await water.dose();
  await press("ArrowDown", "ArrowDown", "ArrowDown", "ArrowDown", "ArrowDown", "ArrowDown");
  assert.ok((await water.dose()) <= hot, "arrows step in a field");
  assert.notEqual(await water.field("warmest").inputValue(), "31");
  await tabTo(page, "[name=thermometer]:checked");
  await press("ArrowRight");
  assert.equal(await water.pressed("thermometer"), "inside");

  await tabTo(page, "#plants .pip");
  const before = await water.field("trusses").inputValue();
  await press("Space");
  assert.match(await at(), /^Truss 1/, "the focus stays on the truss");
  assert.notEqual(await water.field("trusses").inputValue(), before);
  await tabTo(page, "#height");
  await page.keyboard.type("5");
  await tabTo(page, "#height ~ button");
  await press("Enter", "Space");
  assert.notEqual(await water.field("height").inputValue(), "5");
  await tabTo(page, "#container");
  await page.keyboard.type("Pot");
  assert.equal(await water.field("container").inputValue(), "pot");
  await tabTo(page, "[name=place]:checked");
  await press("ArrowRight", "ArrowRight");
  assert.equal(await water.pressed("place"), "outdoors");
  assert.equal(await at(), "place outdoors");

  await tabTo(page, ".group-links button", "Shift+Tab");
  await tabTo(page, "[name=group]", "Shift+Tab");
  await tabTo(page, ".group-links button");
  await press("Enter");
  assert.equal((await water.groups()).length, 2);
  assert.equal(await at(), "Add a group", "the focus stays on what was pressed");
  await tabTo(page, "[name=group]", "Shift+Tab");
  await press("ArrowLeft");
  assert.equal(await at(), "group 0", "and on the group that was chosen");
  assert.equal(await water.pressed("group"), "0");
  await press("ArrowRight");
  assert.equal(await water.pressed("group"), "1");
  await tabTo(page, ".group-links button:last-child");
  await press("Enter");
  await page.waitForFunction(() => document.activeElement.id === "undo");
  assert.equal((await water.groups()).length, 1);
  assert.equal(
    await page.evaluate(() => document.getElementById(document.activeElement.getAttribute("aria-describedby")).textContent),
    "Under glass was removed",
  );
  await press("Enter");
  await page.waitForFunction(() => document.activeElement.name === "group");
  assert.equal((await water.groups()).length, 2);

  await tabTo(page, "#working > summary");
  await press("Space");
  assert.equal(await page.locator("#working").getAttribute("open"), "");

  await tabTo(page, ".strip a", "Shift+Tab");
  await press("Enter");
  await page.waitForFunction(() => document.activeElement.textContent === "Notebook" && document.activeElement.id === "question");
  await tabTo(page, "#plot-number");
  await page.keyboard.type("17b");
  await tabTo(page, ".tab", "Shift+Tab");
  await tabTo(page, '.tab[href="#water"]', "Shift+Tab");
  await press("Enter");
  await page.waitForFunction(() => document.activeElement.textContent.startsWith("Each plant"));
  assert.equal(await water.pressed("sky"), "clear");
  assert.equal(await frame.question().count(), 1);
});

cleanJourney("the bar with a new version is reached last, and put away by Escape", {}, async (visit) => {
  const { page } = visit;
  await offerVersion(visit);
  const reached = await stops(page, "Tab");
  assert.deepEqual(reached.flatMap(({ faults }) => faults), []);
  assert.deepEqual(reached.slice(-2).map(({ what }) => what), ["new-version-now", "new-version-later"]);
  await page.locator("#new-version-later").focus();
  await page.keyboard.press("Escape");
  assert.equal(await page.locator("#new-version").isVisible(), false);
  assert.equal((await focused(page)).what, "question", "the focus is not lost");
});

journey("of a program that has stopped only its panel is reached", {}, async (context) => {
  const { page, water } = await open(context);
  await water.press("sky", "clear");
  await page.evaluate(() => void Promise.reject(new WebAssembly.RuntimeError("unreachable")));
  await page.locator("#stopped").waitFor({ state: "visible" });
  const reached = await stops(page, "Tab");
  assert.deepEqual(reached.flatMap(({ faults }) => faults), []);
  assert.deepEqual(reached.map(({ what }) => what), ["./", "Save my notebook to a file"]);
});
