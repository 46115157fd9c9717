// Feed mix: the can, what it gives, whether it is time, the shelf, and what looks wrong.
import assert from "node:assert/strict";

import { cleanJourney } from "../support/journey.mjs";
import { comeBack, reload } from "../support/visit.mjs";

const FEED = { fragment: "#feed", day: "2026-07-09T09:05:00" };

const near = (value, expected, what, by = 0.06) => assert.ok(Math.abs(value - expected) <= by, `${what}: ${value}, not ${expected}`);
const advice = (page) => page.locator(".advice h3").allInnerTexts();
const notes = (page, name) => page.locator(`#${name}-notes`).innerText();

cleanJourney("at first sight there is an answer, and it says what it assumes", FEED, async ({ page, feed }) => {
  // Two gallons of a made-up 5-2-9 at 20 ml a gallon.
  near(await feed.amount(), 40, "ml");
  near(await feed.answer("nitrogen"), 220.0, "N", 0.1);
  near(await feed.answer("phosphorus"), 38.4, "P", 0.1);
  near(await feed.answer("potassium"), 328.7, "K", 0.1);
  near(await feed.answer("k-to-n"), 1.49, "K to N", 0.005);
  near(await feed.answer("conductivity-low"), 1.1, "low end");
  near(await feed.answer("conductivity-high"), 3.0, "high end");
  assert.match(await feed.assumptions(), /made-up feed of 5-2-9, 20 ml per gallon/);
  assert.equal(await feed.due(), "Feed today");
  assert.equal(await feed.next(), "2026-07-13");
  assert.ok((await advice(page)).includes("Printed for US gallons?"));
  assert.match(await page.locator(".leaves").innerText(), /If so it is 48 ml to this can, not 40\./);
});

cleanJourney("a label in its own words, into a can of ten litres", FEED, async ({ page, frame, feed, notebook }) => {
  await frame.goTo("Notebook");
  await notebook.press("units", "metric");
  await frame.goTo("Feed mix");
  await feed.typeSlowly("can", "10");
  near(await feed.amount(), 44, "20 ml a UK gallon");
  await feed.press("feed-country", "us");
  await page.waitForFunction(() => document.getElementById("answer-feed").value === "52.8");
  await feed.press("feed-country", "uk");
  for (const [words, amount] of [
    ["1 in 200", 50],
    ["1 + 200", 49.8],
    ["5 ml/l", 50],
    ["15 ml per 4.5 l", 33.3],
    ["1 fl oz per gallon", 62.5],
    ["2 tbsp per US gallon", 78.1],
    ["0.5 %", 50],
  ]) {
    await feed.fill("feed-dose", words);
    await page.waitForFunction((amount) => Math.abs(document.getElementById("answer-feed").value - amount) < 0.06, amount);
  }
  // Oxides or elements: the same numbers are more P and K in Australia.
  await feed.fill("feed-dose", "5 ml/l");
  await feed.unfold("feed-further");
  const oxides = await feed.answer("potassium");
  await feed.press("feed-basis", "elements");
  await page.waitForFunction((oxides) => Number(document.getElementById("answer-potassium").value) > oxides, oxides);
  near(await feed.answer("potassium"), 450, "K", 0.1);
});

cleanJourney("what only the grower can tell is asked, and the answer from before stays", FEED, async ({ page, feed }) => {
  await feed.fill("feed-dose", "1 fl oz per gallon");
  assert.match(await notes(page, "feed-dose"), /Which gallons, pints and fluid ounces does the label mean\?/);
  assert.match(await feed.assumptions(), /The answer above is the one from before\./);
  near(await feed.amount(), 40, "from before");
  await feed.press("feed-country", "us");
  near(await feed.changed(40), 71, "a US fluid ounce a US gallon in two UK gallons", 0.3);
  assert.deepEqual(await feed.wrong(), []);
  await feed.fill("feed-dose", "half a capful per can");
  assert.match(await notes(page, "feed-dose"), /How many ml does the cap hold\?/);
  await feed.fill("cap", "30");
  near(await feed.changed(71), 15, "half a cap of 30 ml");
  await feed.fill("feed-dose", "1:20");
  assert.match(await notes(page, "feed-dose"), /one part in that many of the mix, or added/);
  await feed.press("feed-ratio", "total");
  near(await feed.changed(15), 454.6, "a twentieth of two gallons", 0.1);
});

cleanJourney("bad words are told, kept and never guessed", FEED, async ({ page, feed }) => {
  for (const [name, text, sentence] of [
    ["feed-label", "0-0-0", /holds nothing/],
    ["feed-label", "60-60-60", /comes to 180 in 100/],
    ["feed-label", "-5-2-9", /“-” at character 1 would make a number below nought/],
    ["feed-label", "tomato", /“tomato” at character 1 has no place in a label/],
    ["feed-dose", "a splash per can", /“splash” at character 3 is not a measure/],
    ["feed-dose", "1:1", /That makes 500 in a litre/],
    ["feed-dose", "-5 ml per litre", /below nought/],
    ["can", "0", /can be 0\.1 to 11 gallons|Can size/],
    ["can", "10000", /Can size can be/],
  ]) {
    await feed.fill(name, text);
    await page.waitForFunction(([name, text]) => document.getElementById(name).value === text, [name, text]);
    assert.match(await notes(page, name), sentence, `${name} ${text}`);
    assert.deepEqual(await feed.wrong(), [name], text);
    near(await feed.amount(), 40, `${name} ${text}: the answer from before`);
    await feed.fill(name, "");
  }
  await feed.fill("feed-label", "NPK 7:7:7");
  await feed.fill("feed-dose", "tw");
  await reload(page);
  await page.locator("#answer-feed").waitFor();
  assert.equal(await page.locator("#feed-dose").inputValue(), "tw", "as it was typed");
  near(await feed.amount(), 40, "with what is good of it");
  near(await feed.answer("k-to-n"), 0.83, "K to N of 7-7-7", 0.005);
});

cleanJourney("fed is noted with the day, counted on, and taken back", { ...FEED, day: "2026-07-06T09:05:00" }, async ({ page, frame, feed }) => {
  await feed.press("stage", "picking");
  await feed.fed().click();
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  assert.equal(await feed.due(), "Fed today");
  assert.equal(await feed.next(), "2026-07-10");
  await comeBack(page, "2026-07-08T09:05:00");
  await page.locator("#answer-due").waitFor();
  assert.equal(await feed.due(), "Not today");
  await comeBack(page, "2026-07-09T09:05:00");
  await page.locator("#answer-due").waitFor();
  assert.equal(await feed.due(), "Feed today");
  assert.match(await page.locator(".foot").innerText(), /last fed Mon 6 July/);
  await frame.goTo("Morning water");
  const round = page.locator("#round ol li b");
  await round.first().waitFor();
  const tasks = await round.allInnerTexts();
  assert.ok(tasks.indexOf("Feed") > tasks.indexOf("Water"), `${tasks}`);
  await frame.goTo("Feed mix");
  await comeBack(page, "2026-07-06T18:00:00");
  await page.locator("#answer-due").waitFor();
  await feed.fed().click();
  await page.waitForFunction(() => document.activeElement.textContent === "Fed");
  assert.equal(await feed.due(), "Feed today");
});

cleanJourney("the water of a feed is part of the day's, on both screens", FEED, async ({ page, frame, feed, water }) => {
  const heading = (words) => page.locator(".advice h3").filter({ hasText: words });
  // Until told, feed is the day's water and no more.
  await heading("Feed is today’s water").waitFor();
  // Half a pint of feed is less than a plant drinks on an ordinary July day; five are more.
  await feed.fill("feed-each", "½");
  await heading("Part of today’s water").waitFor();
  await feed.fill("feed-each", "5");
  await heading("More than today’s water").waitFor();
  await feed.fill("feed-each", "½");
  await feed.leave();
  await feed.fed().click();
  await frame.goTo("Morning water");
  await heading("Part of it is poured").waitFor();
  assert.match(await page.locator("#what-follows").innerText(), /Each had ½ pint of feed today/);
  await water.watered().click();
  await heading("Part of it is poured").waitFor({ state: "detached" });
});

cleanJourney("no feed goes on sodden compost", FEED, async ({ page, frame, feed, water }) => {
  await frame.goTo("Morning water");
  await water.press("feel", "sodden");
  await frame.goTo("Feed mix");
  assert.equal(await feed.due(), "Not today");
  assert.equal(await feed.next(), "");
  assert.ok((await advice(page)).includes("No feed on sodden compost"));
});

cleanJourney("before a truss has set the compost feeds, and lush stems get less", FEED, async ({ page, frame, feed, water }) => {
  await frame.goTo("Morning water");
  await water.fill("planted", "2026-06-18", "more-plants");
  await water.leave();
  await frame.goTo("Feed mix");
  await feed.press("stage", "no-truss");
  await page.waitForFunction(() => document.getElementById("answer-due").textContent === "Not yet");
  assert.equal(await feed.next(), "2026-07-23");
  near(await feed.amount(), 20, "half strength");
  await feed.press("stage", "picking");
  near(await feed.changed(20), 40, "full strength");
  await feed.unfold("feed-further");
  await feed.press("stem", "lush");
  near(await feed.changed(40), 20, "half strength for lush stems");
});

cleanJourney("the shelf is mixed to what the stage wants, and says what it cannot reach", FEED, async ({ page, feed }) => {
  await feed.press("stage", "picking");
  const tick = (salt) => page.locator(`#shelf-${salt}`).check({ force: true });
  for (const salt of ["potassium-nitrate", "potassium-phosphate", "epsom-salts"]) await tick(salt);
  assert.ok((await advice(page)).includes("What it cannot reach"));
  assert.match(await page.locator("#shelf").innerText(), /N short by/);
  const potash = await feed.answer("potassium-nitrate");
  await tick("calcium-nitrate");
  await page.waitForFunction((before) => Number(document.getElementById("answer-potassium-nitrate").value) < before, potash);
  assert.ok((await advice(page)).includes("Calcium nitrate last"));
  // 45 mg/L of magnesium from Epsom salts in two gallons.
  near(await feed.answer("epsom-salts"), 4.15, "g of Epsom salts", 0.02);
  await reload(page);
  await page.locator("#answer-epsom-salts").waitFor();
  near(await feed.answer("epsom-salts"), 4.15, "kept", 0.02);
});

cleanJourney("what looks wrong is ranked by what the notebook knows", FEED, async ({ page, frame, feed, water }) => {
  await feed.see("lower", "between-veins");
  assert.deepEqual((await feed.causes()).slice(0, 2), ["Short of magnesium likely", "Age may be"]);
  near(await feed.answer("epsom-drench"), 113.4, "g for two gallons", 0.1);
  near(await feed.answer("epsom-routine"), 4.15, "g for two gallons", 0.02);
  await feed.see("fruit", "sunken-end");
  assert.equal((await feed.causes())[0], "Uneven water likely");
  // The tap is not at fault while the can is filled with rain.
  await feed.see("top", "between-veins");
  assert.equal((await feed.causes())[0], "Roots too wet likely");
  await page.locator("#signs a").click();
  await page.waitForFunction(() => document.title.startsWith("Morning water"));
  await water.press("feel", "dry");
  await frame.goTo("Feed mix");
  await feed.unfold("feed-further");
  await feed.press("feed-water", "hard");
  await page.waitForFunction(() => document.querySelector("#causes h3").textContent.startsWith("Hard water"));
});

cleanJourney("by keyboard alone, and each new answer is said", { ...FEED, realTimers: true }, async ({ page, frame, feed }) => {
  await page.locator('input[name="stage"][value="picking"]').focus();
  await page.keyboard.press("Space");
  await page.locator("#feed-dose").focus();
  await page.keyboard.type("1 in 150");
  near(await feed.changed(40), 60.6, "a hundred-and-fiftieth of two gallons", 0.1);
  await page.waitForFunction(() => document.getElementById("said").textContent.startsWith("61 ml to the can"));
  assert.match(await frame.voice().textContent(), /Feed today/);
});
