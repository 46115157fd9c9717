// What growers ask about feed, asked on the screen: every row of the table that the calculation answers too.
import assert from "node:assert/strict";

import { cleanJourney } from "../support/journey.mjs";
import { questions } from "../support/questions.mjs";
import { comeBack } from "../support/visit.mjs";

const QUESTIONS = questions("feed");
const JULY = "2026-07-09";

const CAUSES = {
  magnesium: "Short of magnesium",
  "too much potash": "Too much potash",
  age: "Age",
  "wet roots": "Roots too wet",
  iron: "Short of iron",
  "hard water": "Hard water",
  cold: "Cold",
  phosphorus: "Short of phosphorus",
  salt: "Too much salt",
  "not feed": "Not a matter of feed",
  "uneven water": "Uneven water",
  "too much nitrogen": "Too much nitrogen",
  "poor set": "Flowers that did not set",
  potassium: "Short of potash",
  heat: "Heat, sun or pruning",
};
/** So many times a week as the page says it. */
const howOften = (times) => (times < 1 ? `once in ${Math.round(7 / times)} days` : `${times} a week`);

const DUE = { "not yet": "Not yet", today: "Feed today", later: "Not today", never: "Not this can" };
const WHY = {
  "compost feeds": "The compost still feeds",
  "compost spent": "The compost is spent",
  "crop ends": "Half as often now",
  "lush stem": "Lush stems: half strength",
  granules: "Granules feed too",
  "too strong": "Too strong as the label has it",
  "may be too strong": "May be strong",
};
/** How likely, as the screen has it. */
const ODDS = { perhaps: "less likely", "may be": "possible", likely: "likely" };
const PARTS = { top: "top", fruit: "fruit", edges: "edges", lower: "lower" };
const LOOKS = { "pale all over": "pale", "purple beneath": "purple", "dark spots": "spots" };

const daysAfter = (day, days) => new Date(Date.parse(`${day}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
const morning = (day) => `${day}T09:05:00`;

function within(what, value, [low, high], by = 0) {
  assert.ok(value >= low - by && value <= high + by, `${what}: ${value}, not ${low} to ${high}`);
}

/** What the grower tells. Every input has to be told somewhere, or the question is not the same. */
async function tell({ page, frame, water, feed, notebook }, inputs, today) {
  const left = new Set(Object.keys(inputs).filter((key) => key !== "today"));
  const told = (key) => left.delete(key);
  await frame.goTo("Notebook");
  await notebook.press("units", "metric");
  await frame.goTo("Morning water");
  if (told("weeks")) {
    // The bag that is assumed has the compost of the question for each plant.
    told("compost");
    await water.fill("planted", daysAfter(today, -7 * inputs.weeks), "more-plants");
  }
  if (told("coldest")) await water.fill("coolest", String(inputs.coldest), "fine-tune");
  if (told("uneven")) await water.press("feel", "dry");
  if (told("sodden_days")) {
    for (let ago = inputs.sodden_days - 1; ago > 0; ago -= 1) {
      await comeBack(page, morning(daysAfter(today, -ago)));
      await water.press("feel", "sodden");
    }
    if (inputs.sodden_days > 1) await comeBack(page, morning(today));
    await water.press("feel", inputs.sodden_days > 0 ? "sodden" : "moist");
  }
  await water.leave();
  await frame.goTo("Feed mix");
  await feed.press("stage", (inputs.stage ?? "picking").replace(" ", "-"));
  told("stage");
  await feed.fill("can", String(inputs.can ?? 10));
  await feed.fill("feed-each", String(inputs.litres ?? 1.5));
  await feed.fill("feeds-a-week", String(inputs.a_week ?? 2));
  for (const key of ["can", "litres", "a_week"]) told(key);
  if (told("label")) await feed.fill("feed-label", inputs.label);
  if (told("dose")) {
    await feed.fill("feed-dose", inputs.dose);
    const country = page.locator('input[name="feed-country"][value="uk"]');
    if ((await country.count()) > 0 && !/ US /.test(inputs.dose)) await feed.press("feed-country", "uk");
  }
  if (told("cap")) await feed.fill("cap", String(inputs.cap));
  if (["nitrate", "water", "stem", "granules"].some((key) => left.has(key))) await feed.unfold("feed-further");
  if (told("nitrate")) await feed.fill("nitrate-nitrogen", String(inputs.nitrate));
  if (told("water")) await feed.press("feed-water", inputs.water);
  if (told("stem")) await feed.press("stem", inputs.stem);
  if (told("granules")) await page.locator("#granules").check({ force: true });
  await feed.leave();
  if (told("part")) {
    const look = LOOKS[inputs.look] ?? inputs.look.replace(" ", "-");
    await feed.see(PARTS[inputs.part], look);
    told("look");
    if (told("epsom_tried")) await page.locator("#epsom-tried").check({ force: true });
  }
  if (told("shelf")) for (const salt of inputs.shelf.split(", ")) await page.locator(`#shelf-${salt}`).check({ force: true });
  if (told("brew")) await feed.unfold("brews");
  if (told("last_fed")) {
    await comeBack(page, morning(inputs.last_fed));
    await feed.fed().click();
    await comeBack(page, morning(today));
    await page.locator("#answer-due").waitFor();
  }
  assert.deepEqual([...left], [], "told on the screen");
}

/** What the screen answers. Every expectation has to be looked at. */
async function answered({ page, feed }, question, today) {
  const left = new Set(Object.keys(question).filter((key) => !["name", "asks", "source", "inputs"].includes(key)));
  const wants = (key) => left.delete(key);
  const advice = () => page.locator(".advice h3").allInnerTexts();
  const body = () => page.locator(".leaves").innerText();
  if (wants("refused")) {
    const wrong = await feed.wrong();
    // What has to be asked stands under the dose as well, but is no mistake.
    assert.ok(wrong.length === 1 || (wrong.length === 0 && question.refused.includes("?")), `${wrong}`);
    const told = await page.locator(`#${wrong[0] ?? "feed-dose"}-notes`).innerText();
    // The can's own field knows its unit and says it in its own words.
    if (wrong[0] === "can") assert.match(told, /can be .* litres: 0 litres cannot be right/);
    else assert.equal(told.trim(), question.refused);
    assert.match(await feed.assumptions(), /The answer above is the one from before|what stood there before/);
  }
  if (wants("amount")) within("amount", await feed.amount(), question.amount, 0.05);
  if (wants("elsewhere")) {
    const [, amount] = (await body()).match(/If so it is ([\d.]+) ml to this can/);
    within("elsewhere", Number(amount), question.elsewhere, 0.5);
  }
  if (wants("conductivity_low")) within("low", await feed.answer("conductivity-low"), question.conductivity_low, 0.005);
  if (wants("conductivity_high")) within("high", await feed.answer("conductivity-high"), question.conductivity_high, 0.005);
  if (wants("own")) {
    const [, own] = (await body()).match(/The water’s own is about ([\d.]+) of it\./);
    within("own", Number(own), question.own, 0.005);
  }
  if (wants("potassium_to_nitrogen")) within("K:N", await feed.answer("k-to-n"), question.potassium_to_nitrogen, 0.005);
  if (wants("need")) {
    const shares = await page.locator(".bar-share").allTextContents();
    question.need.forEach((between, place) => within(`need ${place}`, parseFloat(shares[place]) / 100, between, 0.005));
  }
  if (wants("due")) assert.equal(await feed.due(), DUE[question.due]);
  if (wants("days")) assert.equal(await feed.next(), daysAfter(today, question.days[1]));
  if (wants("share")) assert.match(await page.locator(".answer-1 .sub").innerText(), question.share < 1 ? /^half strength/ : /^(?!half)/);
  const often = () => page.locator("table:has(caption:text-is('The same grams in a week')) tbody tr").allInnerTexts();
  if (wants("a_week")) assert.match((await often())[0], new RegExp(`^As above\\s+${howOften(question.a_week)}`));
  if (wants("ways")) {
    const rows = await often();
    assert.equal(rows.length, question.ways.length);
    question.ways.forEach(([share, times], place) => {
      const word = share === 1 ? "As above" : share === 0.5 ? "Half of it" : `${Math.round(share * 100)} %`;
      assert.match(rows[place], new RegExp(`^${word}\\s+${howOften(times)}`));
    });
  }
  if (wants("why")) for (const why of question.why) assert.ok((await advice()).includes(WHY[why]), `${why}: ${await advice()}`);
  if (wants("causes")) {
    const wanted = question.causes.map(([cause, odds]) => `${CAUSES[cause]} ${ODDS[odds]}`);
    assert.deepEqual((await feed.causes()).slice(0, wanted.length), wanted);
  }
  if (wants("epsom")) within("Epsom salts", await feed.answer("epsom-routine"), question.epsom, 0.005);
  if (wants("brewed")) {
    await page.locator("#brews li").first().waitFor();
    const lines = await page.locator("#brews li").allInnerTexts();
    const line = lines.find((line) => line.toLowerCase().includes(question.inputs.brew));
    const [, low, high] = line.match(/nitrogen (\d+) to (\d+)/);
    within("low", Number(low), question.brewed, 0.5);
    within("high", Number(high), question.brewed, 0.5);
    assert.match(lines.join(" "), /nobody knows what yours holds/);
  }
  if (wants("suits_seedlings")) assert.equal(!(await body()).includes("Too strong for seedlings"), question.suits_seedlings);
  if (wants("apart")) {
    assert.equal((await advice()).includes("Calcium nitrate last"), question.apart);
    assert.ok(!(await advice()).includes("Gypsum in the can"), "safe in the can");
    await feed.unfold("as-stock");
    await page.locator("#as-stock table").first().waitFor();
    assert.equal(/turn to gypsum/.test(await page.locator("#as-stock").innerText()), question.apart);
  }
  assert.deepEqual([...left], [], "looked at on the screen");
}

assert.ok(QUESTIONS.length >= 34, `only ${QUESTIONS.length} questions were read`);
for (const question of QUESTIONS) {
  const today = question.inputs.today ?? JULY;
  cleanJourney(`${question.name}: ${question.asks}`, { fragment: "#water", day: morning(today), worker: false }, async (visit) => {
    await tell(visit, question.inputs, today);
    await answered(visit, question, today);
  });
}
