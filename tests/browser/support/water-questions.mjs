// Growers' questions on water, driven on the screen: the inputs and the answers are those of the native checks. One page is used for
// all questions of a table; each begins with an empty notebook. Each table has a journey of its own, for together they take minutes.
import assert from "node:assert/strict";

import { cleanJourney } from "./journey.mjs";
import { settled } from "./patience.mjs";
import { questions } from "./questions.mjs";
import { reload, setDay } from "./visit.mjs";

/** The weather that a question names: the day of the month that it was, sky, warmest and coolest outside, °C. */
const WEATHER = {
  "April clear": ["2025-04-15", "clear", 16, 3],
  "April mixed": ["2025-04-15", "mixed", 12.5, 4.5],
  "April dull": ["2025-04-15", "dull", 9.5, 5.5],
  "June clear": ["2025-06-15", "clear", 24, 10],
  "June mixed": ["2025-06-15", "mixed", 19.5, 10.5],
  "June dull": ["2025-06-15", "dull", 15, 11],
  "July clear": ["2025-07-15", "clear", 27, 13],
  "July mixed": ["2025-07-15", "mixed", 21.5, 12.5],
  "July dull": ["2025-07-15", "dull", 17.5, 13],
  "September clear": ["2025-09-15", "clear", 22, 9],
  "September mixed": ["2025-09-15", "mixed", 18, 10],
  "September dull": ["2025-09-15", "dull", 15, 11],
};

/** The plants of the dose table by their letters: height in metres, trusses. */
const PLANTS = { M: [0.7, 2], T: [1.2, 5] };

/** Advice by its word in the tables, as its heading stands on the page. */
const HEADINGS = {
  "hold off": /^Hold off today$/,
  "water first": /^Water these first$/,
  "container too small": /^More thirst than compost$/,
  split: /^Split it in (two|three)$/,
  "in parts": /^Pour in \d parts$/,
  "where to pour": /^Pour (on the ball|in a ring|over the whole surface)$/,
  "every few days": /^Or about every \d days$/,
  "rain did it": /^Rain did most of it$/,
  "tap trusses": /^Tap the trusses today$/,
  "set likely poor": /^Few fruits may set$/,
  "damp path": /^Damp the path before one$/,
  "rest tomorrow": /^The rest tomorrow$/,
  "went short": /^(They went short|A little short) yesterday$/,
  "blossom end": /^Blossom end rot: (likely|some risk)$/,
  "wet roots": /^(Roots lack air|Wet for days)$/,
  cracking: /^Fruit may crack/,
};

/** Pots planted from, and spots outdoors, by their words in the tables. */
const STARTS = { "9 cm pot": "9-cm" };
const EXPOSURES = { outdoors: "usual", exposed: "exposed", sheltered: "sheltered" };

const daysAfter = (day, days) => new Date(Date.parse(`${day}T12:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
/** Sees to it that `value` lies within a range that is known to so much. */
const within = (what, value, [low, high], by) =>
  assert.ok(value >= low - by && value <= high + by, `${what}: ${value}, not ${low} to ${high}`);

class Asked {
  constructor(visit) {
    Object.assign(this, visit);
  }

  /** A screen by its address. */
  async turn(fragment, place) {
    await this.page.evaluate((fragment) => void (location.hash = fragment), fragment);
    await this.page.locator(place).first().waitFor();
  }

  /** Another morning without the page being opened anew: the page looks at the clock when its window is looked at again. */
  async morning(day) {
    await setDay(this.page.context(), `${day}T08:00:00`);
    await this.page.evaluate(() => void dispatchEvent(new Event("focus")));
    await this.page.waitForFunction((day) => document.getElementById("today").dateTime === day, day);
  }

  async tick(name, wanted) {
    await this.page.locator(`[name="${name}"]`).setChecked(wanted, { force: true });
  }

  /** Begins with an empty notebook, in litres, on the morning of the question. */
  async begin(day) {
    const { page, notebook } = this;
    await setDay(page.context(), `${day}T08:00:00`);
    await page.evaluate(() => {
      localStorage.clear();
      location.hash = "notebook";
    });
    await reload(page);
    await notebook.press("units", "metric");
  }

  /** Tells what the plants are like. */
  async plants(told, take) {
    const { water } = this;
    // A person types no more than three decimals.
    const fill = async (name, value, folded) => water.fill(name, String(Math.round(1000 * value) / 1000), folded);
    const place = take("place") ?? "glass";
    if (place in EXPOSURES) {
      await water.press("place", "outdoors");
      await water.choose("exposure", EXPOSURES[place]);
    } else if (place !== "glass") {
      await water.choose("cover", place.replace(" ", "-"));
    }
    if (take("shaded")) await this.tick("shaded", true);
    const kind = take("container");
    if (kind) await water.choose("container", kind === "bag" ? "grow-bag" : kind);
    const litres = take("litres");
    if (litres !== undefined) await fill(kind === "bag" ? "bag-size" : "pot-size", litres);
    if (take("plants_in_bag") !== undefined) await fill("plants-in-bag", told.plants_in_bag);
    if (take("opening") !== undefined) await fill("pot-width", 200 * Math.sqrt(told.opening / Math.PI));
    if (take("width_cm") !== undefined) {
      // A basket has no field for its width: its litres, as the table reckons them.
      if (kind === "basket") await fill("pot-size", 223 * (told.width_cm / 100) ** 3);
      else await fill("pot-width", told.width_cm);
    }
    if (take("count") !== undefined) await fill("plants", told.count);
    const further = ["medium", "leafiness", "ground", "drains", "planted", "planted_from"].map(take);
    if (further.some((value) => value !== undefined)) await water.unfold("more-plants");
    const [medium, leafiness, ground, drains, planted, start] = further;
    if (medium) await water.choose("medium", medium);
    if (leafiness) await water.press("leafiness", leafiness);
    if (ground !== undefined) await fill("ground", ground);
    if (drains !== undefined) await this.tick("drains", drains);
    if (planted) await water.fill("planted", planted);
    if (start) await water.choose("planted-from", STARTS[start]);
    const [height, trusses] = PLANTS[take("plant")] ?? [take("height"), take("trusses")];
    if (height !== undefined) await fill("height", height);
    if (trusses !== undefined) await fill("trusses", trusses);
  }

  /** Tells what yesterday was like. */
  async weather(told, take) {
    const { water } = this;
    const [, sky, warmest, coolest] = WEATHER[take("weather")] ?? [];
    const readings = { warmest: take("warmest") ?? warmest, coolest: take("coolest") ?? coolest };
    const further = { humidity: take("humidity"), rain: take("rain") };
    const hours = take("sun_hours");
    const word = take("sky") ?? sky;
    if (word) await water.press("sky", word);
    if (hours !== undefined) await water.fill("sunshine-hours", String(hours), "fine-tune");
    await water.unfold("fine-tune");
    for (const [name, value] of Object.entries({ ...readings, ...further })) {
      if (value !== undefined) await water.fill(name, String(value));
    }
    if (take("read_inside") !== undefined) await water.press("thermometer", told.read_inside ? "inside" : "outside");
  }

  /** Tells all that a question tells, in a notebook that was empty. */
  async tell(inputs) {
    const { page, water, notebook } = this;
    const used = new Set();
    const take = (key) => {
      used.add(key);
      return inputs[key];
    };
    const day = take("morning") ?? daysAfter(WEATHER[take("weather")]?.[0] ?? "2025-07-15", 1);
    const given = take("given")?.split(" ") ?? [];
    await this.begin(daysAfter(day, given.length > 0 ? 1 - given.length : 0));
    // Until it is told, the page stands at 52° north as the questions do.
    if (take("latitude") !== undefined) await notebook.fill("latitude", String(inputs.latitude));
    await this.turn("water", "#answer-dose");
    await page.locator("#plants").waitFor();
    await this.plants(inputs, take);
    await this.ahead(inputs, take);
    await this.weather(inputs, take);
    for (let past = 0; past < given.length; past += 1) {
      if (past > 0) {
        await this.morning(daysAfter(day, 1 - given.length + past));
        await this.weather(inputs, take);
        for (const [place, name] of ["height", "trusses"].entries()) await water.fill(name, String(PLANTS[inputs.plant][place]));
      }
      await water.openDay(1);
      await water.fill("given", given[past]);
    }
    if (take("feel")) await water.press("feel", inputs.feel);
    await water.leave();
    assert.deepEqual(Object.keys(inputs).filter((key) => !used.has(key)), [], "every input is told");
  }

  /** Tells of days away, and of a butt. */
  async ahead(inputs, take) {
    const { page, water } = this;
    const days = take("days");
    if (days !== undefined) {
      await water.fill("stopped-at", String(PLANTS[inputs.plant][0]), "more-plants");
      await water.fill("days-away", String(days), "away");
      await water.choose("away-from", "0");
      await water.press("away-sky", WEATHER[inputs.weather][1]);
    }
    if (take("roof")) {
      await water.unfold("butt-fields");
      await water.choose("roof-kind", inputs.roof);
      await water.fill("roof", String(take("roof_area")));
      await page.locator("#butt-level").waitFor();
    }
  }

  /** Whether all that was told can be read. */
  async readable() {
    assert.deepEqual(await this.water.wrong(), []);
  }

  /** The steps of the working by their titles: what went in and what came out, by its symbol. */
  async working(id = "working") {
    await this.water.unfold(id);
    await this.page.locator(`#${id} .work li`).first().waitFor();
    const steps = await this.page.locator(`#${id} .work li`).evaluateAll((lines) =>
      lines.map((line) => [line.querySelector("h3").textContent, line.querySelector(".f").textContent]),
    );
    return (title, pattern) => {
      const found = steps.find(([heading]) => heading === title);
      assert.ok(found, `no step “${title}” among ${steps.map(([heading]) => heading).join("; ")}`);
      const number = found[1].match(pattern)?.[1];
      assert.ok(number, `${pattern} in “${found[1]}”`);
      return Number(number);
    };
  }

  /** The dose before it is rounded, to a hundredth of a litre, and as it is poured. */
  async doses() {
    const step = await this.working();
    return { exact: step("To the jug", /^([\d.]+) litres/), poured: await this.water.dose(), step };
  }
}

/** What the screen answers. Every expectation has to be looked at. */
async function answered(asked, question) {
  const { page, water } = asked;
  const left = new Set(Object.keys(question).filter((key) => !["name", "asks", "source", "inputs"].includes(key)));
  const wants = (key) => left.delete(key);
  if (wants("refused")) {
    const wrong = await water.wrong();
    if (question.inputs.sun_hours < 0) {
      // The field knows its own range, and says so in its own words.
      assert.deepEqual(wrong, ["sunshine-hours"]);
      assert.match(await page.locator("#sunshine-hours-notes").innerText(), /Hours of sun .* 0 .* 24 hours: −1 hours cannot be right/);
    } else {
      const said = await water.assumptions();
      assert.equal(said.replace(" The answer above is the one from before.", ""), question.refused);
    }
    assert.deepEqual([...left], []);
    return;
  }
  await asked.readable();
  const { exact, poured, step } = await asked.doses();
  if (wants("litres")) {
    within("litres", exact, question.litres, 0.005);
    // To the nearest mark of the jug.
    within("litres as poured", poured, question.litres, poured < 0.25 ? 0.005 : 0.025);
    if (question.litres[1] === 0) assert.equal(poured, 0);
  }
  if (wants("total_litres")) {
    const total = await water.total();
    within("litres in all", total, question.total_litres, 0.025 * (question.inputs.count ?? 1));
    if (question.inputs.count === 0) assert.equal(total, 0);
  }
  const used = () => step("Missing from the compost this morning", /used ([\d.]+) litres/);
  if (wants("used_litres")) within("litres used", used(), question.used_litres, 0.005);
  if (wants("share_of_easy_water")) {
    const easy = step("Missing from the compost this morning", /RAW ([\d.]+) litres/);
    const [low, high] = question.share_of_easy_water;
    assert.ok(used() + 0.005 >= low * (easy - 0.05) && used() - 0.005 <= high * (easy + 0.05), `used ${used()} of ${easy} litres`);
  }
  const headings = await page.locator("#what-follows .advice h3").allInnerTexts();
  const given = (kind) => {
    assert.ok(HEADINGS[kind], `no heading for “${kind}”`);
    return headings.some((heading) => HEADINGS[kind].test(heading.trim()));
  };
  if (wants("must")) for (const kind of question.must) assert.ok(given(kind), `“${kind}” is missing from ${headings.join("; ")}`);
  if (wants("must_not")) for (const kind of question.must_not) assert.ok(!given(kind), `“${kind}” is said, in ${headings.join("; ")}`);
  for (const heading of headings) assert.ok(Object.values(HEADINGS).some((words) => words.test(heading.trim())), `“${heading}” is of no kind`);
  if (wants("printed") || left.has("printed_for_container")) {
    await asked.turn("notebook", "#measures");
    await asked.notebook.press("units", "imperial");
    await asked.turn("water", "#answer-dose");
    const row = (await page.locator(".doses").innerText()).replace(/\s+/g, " ");
    if (question.printed) for (const words of question.printed) assert.ok(row.includes(words), `“${words}” in “${row}”`);
    if (wants("printed_for_container")) {
      const [main, twin] = question.printed_for_container;
      assert.ok(row.includes(`${main.split(" ")[0]} a bag`), row);
      // One bag holds the whole group: the foot says the same with its unit, in both systems.
      const foot = (await page.locator(".foot").innerText()).replace(/\s+/g, " ");
      assert.ok(foot.includes(main) && foot.includes(twin), foot);
    }
  }
  if (wants("against")) {
    const other = { ...question.inputs, ...question.against };
    await asked.tell(other);
    await asked.readable();
    const { exact: before, poured: pouredBefore } = await asked.doses();
    const ratio = exact / before;
    const by = (0.005 * (1 + ratio)) / before;
    if (wants("ratio")) {
      within("ratio", ratio, question.ratio, by);
      if (question.ratio[0] > 0.999 && question.ratio[1] < 1.001) assert.deepEqual([exact, poured], [before, pouredBefore]);
    }
    if (wants("ratio_for_container")) {
      const bags = question.inputs.plants_in_bag / other.plants_in_bag;
      within("ratio for a container", ratio * bags, question.ratio_for_container, by * bags);
    }
  }
  assert.deepEqual([...left], [], "looked at on the screen");
}

/** What the plans ahead answer. */
async function foreseen(asked, { quantity, between, inputs }) {
  const { page, water } = asked;
  await asked.readable();
  // What is slow to lay out follows a moment after the answer.
  await settled(page);
  const plan = async () => {
    await page.locator("#away").getByText("A tank that waters by itself").waitFor();
    return (await page.locator("#away").innerText()).replace(/\s+/g, " ");
  };
  const easy = async () => (await asked.working("away-working"))("Until the easy water is gone", /days ([\d.]+)$/);
  const answers = {
    away_litres: () => water.answer("away-litres"),
    away_reservoir: async () => Number((await plan()).match(/has to hold ([\d.]+) litres/)[1]),
    easy_water_days: easy,
    // Whoever has to come gets a card in words.
    nobody_needed: async () => Number((await page.locator("#hand-over").count()) === 0),
    butt_days: async () => {
      await water.unfold("butt-fields");
      await water.fill("butt-size", "200");
      await water.fill("butt-level", "200");
      await water.leave();
      await settled(page);
      if (inputs.weather.endsWith("mixed")) return water.answer("butt-days");
      return Number((await page.locator("#butt").innerText()).match(/Clear skies about (\d+)/)[1]);
    },
    refill_high: async () => {
      await water.fill("butt-level", "100");
      await water.leave();
      await page.locator("#answer-butt-refill").waitFor();
      return (await asked.working("butt-working"))("Rain from the roof", /at most ([\d.]+) litres$/);
    },
  };
  await page.locator("#answer-dose").waitFor();
  if (quantity.startsWith("away") || quantity === "nobody_needed" || quantity === "easy_water_days") await plan();
  within(quantity, await answers[quantity](), between, 0.5 * Number(quantity === "butt_days"));
}

/** A journey that asks the page all questions of a table, of which there are so many. */
export function askAll(table, count) {
  const all = questions(table);
  assert.equal(all.length, count, `questions of ${table}`);
  cleanJourney(`asked on the page: ${table.replace("_", " ")}, ${count} questions`, { fragment: "#water" }, async (visit) => {
    const asked = new Asked(visit);
    const missed = [];
    for (const question of all) {
      try {
        await asked.tell(question.inputs);
        if (question.quantity) await foreseen(asked, question);
        else await answered(asked, question);
      } catch (error) {
        missed.push(`${question.name}: ${error.message}`);
      }
    }
    assert.deepEqual(missed, []);
  });
}
