// Every growers' question on pests, driven on the screen: the inputs and the answers are those of the native checks.
import assert from "node:assert/strict";

import { PestRepeats } from "../pages/pest-repeats.mjs";
import { cleanJourney } from "../support/journey.mjs";
import { questions } from "../support/questions.mjs";

const MILLISECONDS_OF_DAY = 86_400_000;

/** What the table calls pests, and the page. */
const PESTS = { "spider mite": "spider-mite", "tomato moth": "tomato-moth", "leaf-mining fly": "leaf-mining-fly" };

/** What the table calls controls, and how the page writes them. */
const CONTROLS = {
  vacuum: "Shake and vacuum",
  "water jet": "Water jet",
  "hand picking": "Pick and squash",
  "contact spray": "Soap or oil spray",
  "ferric phosphate": "Ferric phosphate",
  parasitoid: "Parasitoids",
  "predatory mite": "Predatory mites",
  nematodes: "Nematodes",
};

/** Advice and conflicts by their words in the table, as their headings stand on the page. */
const HEADINGS = {
  "eggs escape": "Eggs escape a spray",
  "label first": "The label comes first",
  undersides: "Under the leaves",
  "adults are few": "Adults are one in twenty",
  "mains water": "Mains water under glass",
  "not in sun": "Not in bright sun",
  honeydew: "Sticky leaves, black mould",
  "break bridge": "Break the bridge",
  "no rush": "No rush",
  stalls: "Too cold for them to grow up",
  protect: "Gloves, sleeves, eyes",
  "paper tap": "Tap a leaf over white paper",
  "damp down": "Damp down",
  "pick first": "Pick before you spray",
  "clean up": "Clean up instead of spraying",
  "take out worst": "Take out the worst plants",
  "wait after spray": "Wait after the spray",
  "as supplier": "As the supplier says",
  "too cool for them": "Too cool for them yet",
  "cards catch them": "Cards catch them too",
  "too hot": "Above 35 °C",
  "keep nematodes cool": "Keep them in the fridge",
  "nematodes are slow": "Nematodes take their time",
  "torch round": "Round with a torch",
  ponds: "Away from ponds",
  "old pellets": "Old blue pellets",
  "bait locked": "Bait locked away",
  "evening search": "Search at dusk",
  "bored fruit": "Take out bored fruit",
  "no eggs": "No eggs to wait for",
  "spare predators": "Spare what eats them",
  "by hand instead": "By hand instead",
  "take leaves off": "Squash the mine or take the leaf off",
  "report it": "It may have to be reported",
  "longer between": "The label waits longer than the pest",
  "uses end": "The label’s uses end first",
  "no picking between": "No picking between the sprays",
  "picking unknown": "No picking date",
};

const heading = (words) => HEADINGS[words] ?? assert.fail(`no heading for “${words}”`);

/** How the page writes what is done. */
function written(control, pest) {
  if (control === "hand picking" && pest === "slug") return "Torch patrol";
  return CONTROLS[control] ?? assert.fail(`no control “${control}”`);
}

/** Enters what the grower tells. */
async function tell(visit, inputs, other = {}) {
  const { page, water, notebook } = visit;
  const pests = new PestRepeats(page);
  const told = { ...inputs, ...other };
  const used = new Set(["first", "today"]);
  const take = (key) => {
    used.add(key);
    return told[key];
  };
  const turn = async (fragment, place) => {
    await page.evaluate((fragment) => (location.hash = fragment), fragment);
    await page.locator(place).first().waitFor();
  };
  if (take("latitude") !== undefined) {
    await turn("#notebook", '[name="latitude"]');
    await notebook.fill("latitude", String(told.latitude));
  }
  const isUsual = take("celsius") === undefined;
  if (isUsual) {
    await turn("#water", "#answer-dose");
    await water.press("place", take("glass") ? "glass" : "outdoors");
    if (take("coolest") !== undefined) {
      await water.unfold("fine-tune");
      await water.fill("coolest", String(told.coolest));
      await water.fill("warmest", String(take("warmest")));
    }
  }
  await turn("#pests", "#question");
  await pests.press("pest", PESTS[take("pest")] ?? told.pest);
  await pests.press("control", take("control").replaceAll(" ", "-"));
  if (!isUsual) {
    await pests.unfold("pest-warmth");
    await pests.fill("pest-mean", String(told.celsius));
  }
  if (take("min") !== undefined) {
    const text = (key) => (take(key) === undefined ? undefined : String(told[key]));
    await pests.readLabel({ least: text("min"), most: text("max"), picking: text("phi") });
  }
  if (take("names_crop")) await pests.press("names-crop", told.names_crop);
  if (take("beside")) await page.locator(`label:has(> #beside-${told.beside.replaceAll(" ", "-")})`).click();
  const today = Date.parse(told.today ?? told.first);
  for (const [key, control] of [["done", told.control], ["sprayed", "contact spray"]]) {
    if (take(key) === undefined) continue;
    const ago = (today - Date.parse(told[key])) / MILLISECONDS_OF_DAY;
    await page.locator('[name="done-with"]').selectOption({ label: written(control, told.pest) });
    await page.locator('[name="done-earlier"]').selectOption(String(ago));
  }
  await page.locator("#question").focus();
  assert.deepEqual(Object.keys(told).filter((key) => !used.has(key)), [], "every input is entered");
  return pests;
}

/** What the page says, as far as the question asks. Tells how many things were asked. */
async function check(question, visit, pests) {
  const { inputs } = question;
  const { page } = visit;
  let asked = 0;
  const since = (date) => (Date.parse(date) - Date.parse(inputs.first)) / MILLISECONDS_OF_DAY;
  const within = (what, got, [low, high]) => {
    asked += 1;
    assert.ok(got >= low && got <= high, `${what}: ${got}, not ${low} to ${high}`);
  };
  const own = written(question.planned_with ?? inputs.control, inputs.pest);
  const lines = await pests.lines();
  const ahead = lines.filter(({ word }) => word !== "done" && word !== "left out");
  const days = ahead.filter(({ name }) => name === own).map(({ date }) => since(date));
  const headings = await page.locator("#take-care").innerText().then((text) => text.split("\n").map((line) => line.trim()));
  const answers = {
    between: () => days[1] - days[0],
    treatments: () => days.length,
    last: () => days.at(-1),
    next: async () => since(await pests.date("next")),
    hatched: async () => since(await pests.date("hatched")),
    last_adult: async () => since(await pests.date("last-egg")),
    picked: async () => since(await pests.date("pick-last")),
    introduced: async () => since(await pests.date("introduce")),
    pace: async () => {
      await pests.unfold("pest-working");
      await page.locator("#pest-working").getByText("degree-days a day").first().waitFor();
      const text = await page.locator("#pest-working").innerText();
      return Number(text.match(/degree-days a day\D*?(\d+(?:\.\d+)?)/)[1]);
    },
  };
  for (const [key, expected] of Object.entries(question)) {
    if (key === "must" || key === "conflicts") {
      for (const words of expected) assert.ok(headings.includes(heading(words)), `“${heading(words)}” is missing`);
      asked += expected.length;
    } else if (key === "must_not") {
      for (const words of expected) assert.ok(!headings.includes(heading(words)), `“${heading(words)}” is said`);
    } else if (key === "no_picking") {
      asked += 1;
      for (const name of ["pick", "pick-next", "pick-last"]) assert.equal(await pests.date(name), null, name);
    } else if (key === "not_introduced") {
      asked += 1;
      assert.equal(await pests.date("introduce"), null);
      assert.equal(ahead.length, 0, "nothing is brought in");
    } else if (key === "planned_with") {
      asked += 1;
      assert.ok(ahead.length > 0 && ahead.every(({ name }) => name === own), JSON.stringify(ahead));
    } else if (key === "filled_with" || key === "filled_between") {
      const filler = written(question.filled_with, inputs.pest);
      const filled = ahead.filter(({ name }) => name === filler).map(({ date }) => since(date));
      asked += 1;
      assert.ok(filled.some((day) => key === "filled_with" || (day > days[0] && day < days.at(-1))), key);
    } else if (key === "pace" && inputs.coolest !== undefined) {
      // Of one day that was read: the page prints the week's. What it says of such a day is asked instead.
      await pests.unfold("pest-warmth");
      await page.locator("#pest-warmth").getByText("A daily mean hides hot noons and cold nights").waitFor();
    } else if (key in answers) {
      within(key, await answers[key](), expected);
    } else if (!["name", "asks", "source", "inputs", "against", "hatched_against", "pace_not", "adults_percent"].includes(key)) {
      assert.fail(`“${key}” is not looked at`);
    }
  }
  assert.ok(asked > 0, "something is asked");
}

const ALL = questions("pest");
assert.equal(ALL.length, 26);
assert.equal(new Set(ALL.map(({ name }) => name)).size, ALL.length);

for (const question of ALL) {
  const { name, inputs } = question;
  const morning = { day: `${inputs.today ?? inputs.first}T08:00:00`, fragment: "#pests" };
  cleanJourney(`asked on the page: ${name}`, { ...morning, worker: false }, async (visit) => {
    await check(question, visit, await tell(visit, inputs));
    if (question.against) {
      const pests = await tell(visit, inputs, question.against);
      const [low, high] = question.hatched_against;
      const hatched = (Date.parse(await pests.date("hatched")) - Date.parse(inputs.first)) / MILLISECONDS_OF_DAY;
      assert.ok(hatched >= low && hatched <= high, `${hatched} days`);
    }
  });
}
