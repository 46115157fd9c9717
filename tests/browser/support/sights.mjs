// What is held to pictures: every screen and state, as steps of a person, with the part of the page that is pictured.
import { PestRepeats } from "../pages/pest-repeats.mjs";
import { address } from "./browser.mjs";
import { DEMO_DAY, demoNotebook } from "./demo.mjs";
import { BY_HAND_PHONE, offerToInstall } from "./installing.mjs";
import { PLAN, REPLY, blockStorage, keptBefore, offerVersion } from "./states.mjs";
import { open } from "./visit.mjs";
import { heldProgram } from "./weak-signal.mjs";

/** Where the page seems to be: a link holds its address, and the task runner's has another port each time. */
const PLACE = "http://plot-14.test/";
const { hostname } = new URL(PLACE);

/** What makes a browser find the page there, and count it as safe as one on this machine. */
export const SWITCHES = [
  `--host-resolver-rules=MAP ${hostname}:80 ${new URL(address).host}`,
  `--unsafely-treat-insecure-origin-as-secure=${PLACE}`,
];

/** The page as it is opened on plot 14; `changed` as for `demoNotebook`. */
const demo = (changed) => (context) => keptBefore(context, demoNotebook(changed));

/** Opens the disclosures `ids`, on whatever screen. */
async function unfold({ water }, ...ids) {
  for (const id of ids) await water.unfold(id);
}

/** A page whose program is still on its way. */
async function beforeProgram(context) {
  const page = await context.newPage();
  await heldProgram(page);
  await page.goto(PLACE, { waitUntil: "commit" });
  await page.locator("#shell .keys-sec").last().waitFor();
  return { page };
}

/** The same after ten seconds. */
async function withoutProgram(context) {
  const visit = await beforeProgram(context);
  await visit.page.evaluate(() => {
    const box = document.getElementById("cannot-start");
    box.classList.remove("late");
  });
  return visit;
}

/** A label read in full, for a spray that is bought. */
async function readLabel({ page }, numbers = { least: "14", most: "2", picking: "21" }) {
  const pests = new PestRepeats(page);
  await pests.press("control", "contact-spray");
  await pests.readLabel(numbers);
  return pests;
}

/**
 * The states. `screen` is the address's fragment, `day` and `device` as for a profile; `before` prepares the profile, `reach` is what is done,
 * `arrive` stands for opening the page where it opens otherwise. `of` names the parts of the page that are pictured together: the
 * whole page where it is left out, the window alone where it is "window"; `most` cuts what is long and goes on in the same way. `paper` is the state as it is printed.
 */
export const SIGHTS = [
  // ---- Morning water ----
  { name: "water-first-visit", screen: "#water", most: 2400 },
  { name: "water-set-up", screen: "#water", day: DEMO_DAY, before: demo(), of: [".strip", ".desk", "#days"] },
  {
    name: "water-watered",
    screen: "#water",
    day: DEMO_DAY,
    before: demo(),
    of: [".plate", ".foot", "#watered"],
    reach: ({ water }) => water.watered().click(),
  },
  {
    name: "water-sodden",
    screen: "#water",
    day: DEMO_DAY,
    before: demo({ first: ["feel=sodden"], morning: ["sky=dark"] }),
    of: [".plate", ".foot", "#what-follows", "#round"],
  },
  {
    name: "water-drought",
    screen: "#water",
    day: DEMO_DAY,
    before: demo({
      first: ["feel=dry"],
      morning: ["sky=clear", "warmest=31", "coolest=16"],
      days: [
        ["2026-07-01", "clear", 1.56, 1.14, "moist"],
        ["2026-07-02", "clear", 2.3, 0.85, "dry"],
        ["2026-07-03", "clear", 0, 0, "dry"],
        ["2026-07-04", "clear", 2.3, 1.14, "dry"],
        ["2026-07-05", "clear", 0, 0, "dry"],
        ["2026-07-06", "clear", 2.84, 2.28, "dry"],
        ["2026-07-07", "clear", 0.4, 0, "dry"],
        ["2026-07-08", "clear", 0, 0, "dry"],
      ],
    }),
    of: [".plate", ".foot", "#what-follows"],
  },
  {
    name: "water-missed-days",
    screen: "#water",
    day: "2026-07-12T07:40:00",
    before: demo(),
    of: ["#days"],
    reach: (visit) => unfold(visit, "missed"),
  },
  {
    name: "water-finer",
    screen: "#water",
    day: DEMO_DAY,
    before: demo({ morning: ["sky=bright", "warmest=26", "coolest=14"] }),
    of: ["#fine-tune", "#measured", "#wilting"],
    async reach(visit) {
      await unfold(visit, "fine-tune", "measured", "wilting");
      await visit.water.press("wilting", "noon");
    },
  },
  {
    name: "water-days",
    screen: "#water",
    day: DEMO_DAY,
    before: demo(),
    of: ["#days"],
    async reach(visit) {
      await unfold(visit, "days-table", "season");
      await visit.water.openDay(4);
    },
  },
  {
    name: "water-plants",
    screen: "#water",
    day: DEMO_DAY,
    before: demo(),
    of: ["#plants"],
    most: 1900,
    reach: (visit) => unfold(visit, "more-plants", "season-end"),
  },
  {
    name: "water-plants-in-pots",
    screen: "#water",
    day: DEMO_DAY,
    before: demo(),
    of: ["#plants"], most: 900,
    async reach(visit) {
      await visit.water.press("group", "1");
      await unfold(visit, "more-plants");
    },
  },
  {
    name: "water-butt",
    screen: "#water",
    day: DEMO_DAY,
    before: demo(),
    of: ["#butt"],
    reach: (visit) => unfold(visit, "butt-fields", "butt-season", "butt-working"),
  },
  {
    name: "water-away",
    screen: "#water",
    day: DEMO_DAY,
    before: demo(),
    of: ["#away"],
    async reach(visit) {
      await unfold(visit, "away");
      await visit.water.fill("days-away", "6");
      await visit.page.locator("#hand-over").waitFor();
    },
  },
  { name: "water-working", screen: "#water", day: DEMO_DAY, before: demo(), of: ["#working"], most: 800, reach: (visit) => unfold(visit, "working") },
  {
    name: "water-wrong-entries",
    screen: "#water",
    day: DEMO_DAY,
    before: demo(),
    of: ["#fine-tune", "#plants .plant-ed"],
    async reach(visit) {
      const { water } = visit;
      await unfold(visit, "fine-tune");
      for (const [name, text] of Object.entries({ "sunshine-hours": "abc", warmest: "12", coolest: "20", height: "tall", trusses: "45" })) {
        await water.fill(name, text);
      }
    },
  },

  // ---- Feed mix ----
  { name: "feed-first-visit", screen: "#feed", most: 2300 },
  { name: "feed-label-typed", screen: "#feed", day: DEMO_DAY, before: demo(), of: [".desk"] },
  {
    name: "feed-fed",
    screen: "#feed",
    day: DEMO_DAY,
    before: demo(),
    of: [".plate", ".foot", "#fed"],
    reach: ({ feed }) => feed.fed().click(),
  },
  {
    name: "feed-question",
    screen: "#feed",
    of: [".plate", ".foot", "#label"],
    async reach({ feed }) {
      await feed.fill("feed-label", "8-3-8");
      await feed.fill("feed-dose", "2 oz per gallon");
    },
  },
  {
    name: "feed-cannot-be-read",
    screen: "#feed",
    day: DEMO_DAY,
    before: demo(),
    of: ["#label"],
    async reach({ feed }) {
      await feed.fill("feed-label", "60-60-60");
      await feed.fill("feed-dose", "a splash per can");
    },
  },
  { name: "feed-further", screen: "#feed", day: DEMO_DAY, before: demo(), of: ["#feed-further"], reach: (visit) => unfold(visit, "feed-further") },
  {
    name: "feed-shelf",
    screen: "#feed",
    day: DEMO_DAY,
    before: demo(),
    of: ["#shelf"], most: 1500,
    async reach(visit) {
      const { page, feed } = visit;
      for (const salt of ["potassium-nitrate", "calcium-nitrate", "potassium-phosphate", "epsom-salts"]) {
        await page.locator(`[name="shelf-${salt}"]`).check({ force: true });
      }
      await unfold(visit, "bags", "as-stock", "brews");
      await feed.fill("stock", "100");
    },
  },
  {
    name: "feed-something-wrong",
    screen: "#feed",
    day: DEMO_DAY,
    before: demo(),
    of: ["#signs"], most: 1000,
    reach: ({ feed }) => feed.see("lower", "between-veins"),
  },
  { name: "feed-working", screen: "#feed", day: DEMO_DAY, before: demo(), of: ["#working"], most: 800, reach: (visit) => unfold(visit, "working") },

  // ---- Pest repeats ----
  { name: "pests-first-visit", screen: "#pests", most: 2300 },
  { name: "pests-under-way", screen: "#pests", day: DEMO_DAY, before: demo(), of: [".strip", ".desk"] },
  {
    name: "pests-label-unread",
    screen: "#pests",
    of: [".plate", ".foot", "#label-first", "#label"],
    reach: ({ page }) => new PestRepeats(page).press("control", "contact-spray"),
  },
  {
    name: "pests-label-read",
    screen: "#pests",
    of: ["#label", "#dates"], most: 1300,
    async reach(visit) {
      await readLabel(visit);
    },
  },
  {
    name: "pests-numbers",
    screen: "#pests",
    day: DEMO_DAY,
    before: demo(),
    of: ["#numbers", "#did-it-work"],
    reach: (visit) => unfold(visit, "numbers-table"),
  },
  {
    name: "pests-fewest",
    screen: "#pests",
    of: ["#best-plan"],
    async reach({ page }) {
      await page.getByRole("button", { name: "Find the fewest treatments" }).click();
      await page.locator("#answer-fewest").waitFor();
    },
  },
  {
    name: "pests-slugs-and-blight",
    screen: "#pests",
    day: DEMO_DAY,
    before: demo(),
    of: ["#slugs", "#take-care", "#pest-warmth"], most: 1300,
    reach: (visit) => unfold(visit, "pest-warmth"),
  },
  { name: "pests-working", screen: "#pests", day: DEMO_DAY, before: demo(), of: ["#pest-working"], most: 800, reach: (visit) => unfold(visit, "pest-working") },
  {
    name: "pests-spider-mite",
    screen: "#pests",
    of: [".plate", ".foot", "#which-pest"],
    reach: ({ page }) => new PestRepeats(page).press("pest", "spider-mite"),
  },

  // ---- Notebook, and what is handed over ----
  { name: "notebook", screen: "#notebook", day: DEMO_DAY, before: demo() },
  {
    name: "notebook-share",
    screen: "#notebook",
    day: DEMO_DAY,
    before: demo(),
    of: ["#share"],
    async reach({ page, notebook }) {
      await notebook.unfold("share");
      await page.getByRole("button", { name: "Make the link" }).click();
      await page.locator(".square-code").waitFor();
    },
  },
  {
    name: "notebook-copy",
    screen: "#notebook",
    day: DEMO_DAY,
    before: demo(),
    of: ["#kept"],
    async reach({ page }) {
      const buffer = Buffer.from(demoNotebook());
      await page.locator('[name="copy"]').setInputFiles({ name: "plot-14.txt", mimeType: "text/plain", buffer });
      await page.locator("#copy :is(p, button)").first().waitFor();
    },
  },
  {
    name: "neighbours-card",
    of: [".strip", ".desk", "#round", "#due", "#send-back", "#keep"],
    screen: `#${PLAN}`,
    day: "2026-07-13T08:00:00",
    async reach({ page, water }) {
      await water.press("sky", "bright");
      await page.locator("#round .tick").filter({ hasText: "Water" }).first().click();
    },
  },
  { name: "list-came-back", screen: `#${REPLY}`, of: ["main"] },
  { name: "link-cut", screen: `#${PLAN.slice(0, -2)}`, of: ["main"] },
  { name: "week", screen: "#week", day: DEMO_DAY, before: demo() },
  { name: "season", screen: "#whole-season", day: DEMO_DAY, before: demo() },

  // ---- what lies over a screen ----
  { name: "notebook-damaged", screen: "#water", before: (context) => keptBefore(context, "not a notebook"), of: "window" },
  { name: "storage-blocked", screen: "#feed", before: blockStorage, of: ["#notice"] },
  { name: "new-version", screen: "#water", day: DEMO_DAY, before: demo(), of: "window", reach: offerVersion },
  { name: "install-offer", screen: "#notebook", of: "window", reach: ({ page }) => installing(page, true) },
  { name: "install-by-hand", screen: "#notebook", device: BY_HAND_PHONE, of: ["#install-hint"], reach: ({ page }) => installing(page) },
  { name: "before-the-program", arrive: beforeProgram, of: "window" },
  { name: "cannot-start", arrive: withoutProgram, of: ["#cannot-start"] },
  {
    name: "stopped",
    screen: "#water",
    day: DEMO_DAY,
    before: demo(),
    of: ["#stopped"],
    async reach({ page }) {
      await page.evaluate(() => document.getElementById("stopped").removeAttribute("hidden"));
      await page.locator("#stopped .save-kept").waitFor();
    },
  },

  // ---- on paper ----
  { name: "paper-week", screen: "#week", day: DEMO_DAY, before: demo(), paper: true },
  { name: "paper-season", screen: "#whole-season", day: DEMO_DAY, before: demo(), paper: true },
  { name: "paper-water", screen: "#water", day: DEMO_DAY, before: demo(), paper: true, most: 1600 },
  { name: "paper-feed", screen: "#feed", day: DEMO_DAY, before: demo(), paper: true, most: 1600 },
  { name: "paper-pests", screen: "#pests", day: DEMO_DAY, before: demo(), paper: true, most: 1600 },
  { name: "paper-card", screen: `#${PLAN}`, day: "2026-07-13T08:00:00", paper: true },
];

async function installing(page, isOffered = false) {
  if (isOffered) await offerToInstall(page);
  await page.locator("#install-hint").waitFor({ state: "visible" });
}

/** Opens the page in `state`. */
export async function sighted(context, { screen, before, reach, arrive }) {
  if (arrive) return arrive(context);
  await before?.(context);
  const visit = await open(context, screen, PLACE);
  await reach?.(visit);
  return visit;
}
