// What a screen reader is told: each control by role and name, each screen by its title, each new answer once.
import assert from "node:assert/strict";

import { cleanJourney } from "../support/journey.mjs";

/** Longer than the answer has to stand still before it is said. */
const SETTLED = 800;

/** Notes every change of the one polite region from now on. */
const listen = (page) =>
  page.evaluate(() => {
    window.heard = [];
    const region = document.getElementById("said");
    new MutationObserver(() => window.heard.push(region.textContent)).observe(region, {
      childList: true,
      characterData: true,
      subtree: true,
    });
  });

/** What was said since the last time. */
async function heard(page) {
  await page.waitForTimeout(SETTLED);
  return page.evaluate(() => window.heard.splice(0));
}

const politeRegions = (page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('[role="status"], [role="log"], [aria-live="polite"], output')].map(({ id }) => id),
  );

cleanJourney("one polite region says each new answer once", {}, async ({ page, water, frame }) => {
  assert.equal(await frame.voice().textContent(), "", "the page is read from the top");
  await listen(page);
  assert.deepEqual(await heard(page), []);

  await water.press("sky", "clear");
  const clear = await heard(page);
  assert.equal(clear.length, 1, `${clear}`);
  assert.ok(clear[0].startsWith(`${await water.figure()} pints a plant, likely `), clear[0]);

  // A button held down is one change.
  const more = page.locator("#height ~ button");
  await more.hover();
  await page.mouse.down();
  await page.waitForTimeout(1200);
  await page.mouse.up();
  const held = await heard(page);
  assert.equal(held.length, 1, `${held}`);
  assert.notEqual(held[0], clear[0]);

  await water.unfold("more-plants");
  await water.typeSlowly("group-name", "Nan's");
  await water.leave();
  await water.unfold("working");
  await frame.goTo("Notebook");
  await frame.goTo("Morning water");
  assert.deepEqual(await heard(page), [], "no new answer, no word");

  await water.copy();
  const both = await heard(page);
  assert.equal(both.length, 1, `${both}`);
  const groups = both[0].split("; ");
  assert.equal(groups.length, 2);
  for (const said of groups) assert.match(said, /^[^:]+: .+ a plant, likely /, "each group by its name");
  await water.remove();
  assert.equal((await heard(page)).length, 1);
  for (const screen of ["Morning water", "Feed mix", "Pest repeats", "Notebook"]) {
    await frame.goTo(screen);
    assert.deepEqual(await politeRegions(page), ["said"], screen);
  }
  assert.deepEqual(await heard(page), []);
});

cleanJourney("the polite region says what is wrong with what is typed", {}, async ({ page, water }) => {
  await listen(page);
  await water.typeSlowly("height", "tall");
  const wrong = await heard(page);
  assert.equal(wrong.length, 1, `${wrong}`);
  assert.match(wrong[0], /tall.*is not a number/);
  await water.typeSlowly("height", "3");
  assert.match((await heard(page)).at(-1), / a plant, likely /);
});

cleanJourney("the next date against a pest is said once it has changed", { day: "2026-07-01T08:00:00", fragment: "#pests" }, async ({ page }) => {
  await page.locator("#treated button").first().waitFor();
  await listen(page);
  assert.deepEqual(await heard(page), []);
  await page.locator("#treated button").first().click();
  const done = await heard(page);
  assert.equal(done.length, 1, `${done}`);
  assert.match(done[0], /^Vacuum again, [A-Z][a-z]{2} \d July$/);
  await page.locator('label:has(> input[name="pest"][value="leaf-mining-fly"])').click();
  assert.deepEqual(await heard(page), ["No programme: squash each mine, or take the leaf off."]);
});

cleanJourney("each screen has its title, and its question has the focus", {}, async ({ page, frame }) => {
  const focus = () => page.evaluate(() => document.activeElement.id);
  const arrived = (name) =>
    page.waitForFunction((name) => document.title === `${name} - First Truss` && document.activeElement.id === "question", name);
  assert.equal(await page.title(), "Morning water - First Truss");
  assert.notEqual(await focus(), "question", "nothing takes the focus at the start");
  const questions = new Set();
  for (const name of ["Feed mix", "Pest repeats", "Notebook", "Morning water"]) {
    await frame.goTo(name);
    await arrived(name);
    assert.equal(await page.locator("h1").count(), 1);
    assert.equal(await page.locator('[aria-current="page"]').count(), name === "Notebook" ? 0 : 1);
    questions.add(await frame.question().innerText());
  }
  assert.equal(questions.size, 4);
  await page.goBack();
  await arrived("Notebook");
  await page.goForward();
  await arrived("Morning water");
});

cleanJourney("every control has a role and a name, and says what is wrong", {}, async ({ page, water }) => {
  for (const part of ["fine-tune", "more-plants", "working"]) await water.unfold(part);
  await water.press("sky", "clear");
  await water.fill("height", "tall");
  await water.leave();
  const session = await page.context().newCDPSession(page);
  const { nodes } = await session.send("Accessibility.getFullAXTree");
  const told = nodes
    .filter(({ ignored }) => !ignored)
    .map(({ role, name, description, properties = [] }) => ({
      role: role.value,
      name: name?.value ?? "",
      description: description?.value ?? "",
      ...Object.fromEntries(properties.map(({ name, value }) => [name, value.value])),
    }));
  const of = (role) => told.filter((node) => node.role === role);
  const named = (role, name) => {
    const found = of(role).filter((node) => node.name === name);
    assert.equal(found.length, 1, `one ${role} "${name}" among: ${of(role).map(({ name }) => name).join(", ")}`);
    return found[0];
  };

  const controls = ["link", "button", "textbox", "radio", "checkbox", "combobox", "DisclosureTriangle", "image"].flatMap(of);
  assert.ok(controls.length > 70, `${controls.length}`);
  assert.deepEqual(controls.filter(({ name }) => !name.trim()), [], "none without a name");
  // A name that two of a kind share would not tell them apart.
  for (const role of ["textbox", "combobox", "checkbox", "button", "link"]) {
    const names = of(role).map(({ name }) => name);
    assert.deepEqual(names.filter((name, index) => names.indexOf(name) !== index), [], role);
  }

  for (const landmark of ["banner", "navigation", "main"]) assert.equal(of(landmark).length, 1, landmark);
  const figure = await water.figure();
  assert.ok(of("image").some(({ name }) => name.startsWith(`Jug filled to ${figure} pints, likely `)), "the jug in words");
  assert.ok(of("image").some(({ name }) => /^A plant .* ft tall with \d+ trusses set$/.test(name)), "the plant in words");
  assert.equal(named("radio", "Clear").checked, "true");
  assert.equal(named("radio", "Dull").checked, "false");
  assert.equal(named("textbox", "Plants").description, "in this group");
  assert.equal(named("textbox", "Hours of sun").invalid, "false");
  const wrong = named("textbox", "Height, ft");
  assert.equal(wrong.invalid, "true");
  assert.match(wrong.description, /tall.*is not a number/);
  assert.equal(named("button", "Truss 1, set").pressed, "true");
  named("button", "More: Height, ft");
  named("combobox", "They stand in");
  named("checkbox", "Shading paint or net on it");
  named("link", "Skip to the answer");
  for (const group of ["They grow", "Thermometer hangs", "Which plants", "Leaves"]) named("group", group);
  for (const question of ["Yesterday was", "Compost feels"]) {
    assert.ok(of("group").some(({ name }) => name.startsWith(question)), question);
  }
  assert.equal(of("status").length, 1);

  const levels = await page.locator("h1, h2, h3, h4").evaluateAll((headings) =>
    headings.filter((heading) => heading.checkVisibility()).map(({ tagName }) => Number(tagName[1])),
  );
  assert.deepEqual([levels[0], levels.filter((level) => level === 1).length], [1, 1]);
  assert.ok(levels.every((level, index) => index === 0 || level <= levels[index - 1] + 1), `no level is left out: ${levels}`);
});
