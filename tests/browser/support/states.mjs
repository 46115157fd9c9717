// Every screen in every state that a grower may meet, as steps of a person: what is checked for one is checked for all.
import { NOTEBOOK_KEY, open } from "./visit.mjs";
import { address } from "./browser.mjs";

/** The parts of Morning water that are folded away. */
const FOLDED = ["fine-tune", "more-plants", "working"];

/** As long as a name may be. */
const LONG_NAME = "Grandmother's old lean-to by the kitchen";

/** Puts `text` where the notebook is kept, before the page opens. */
export function keptBefore(context, text) {
  return context.addInitScript(([key, text]) => localStorage.setItem(key, text), [NOTEBOOK_KEY, text]);
}

/** Refuses all storage, as a browser with everything blocked does. */
export function blockStorage(context) {
  return context.addInitScript(() => {
    Object.defineProperty(window, "localStorage", {
      get() {
        throw new DOMException("Access is denied for this document.", "SecurityError");
      },
    });
  });
}

async function unfoldAll({ water }) {
  for (const part of FOLDED) await water.unfold(part);
}

/** A page whose program never comes, with the message that then appears; its ten seconds are not waited for. */
async function withoutProgram(context) {
  const page = await context.newPage();
  await page.route("**/*.wasm", (route) => route.abort());
  await page.goto(address);
  await page.evaluate(() => document.getAnimations().forEach((animation) => animation.finish()));
  await page.locator("#cannot-start").waitFor({ state: "visible" });
  return { page };
}

/**
 * The states. `screen` is the address's fragment, `day` another day than usual; `before` prepares the profile, `reach` is
 * what the grower does, and `arrive` stands for opening the page where it does not open as usual.
 */
export const STATES = [
  { name: "Morning water at first sight", screen: "#water" },
  { name: "Morning water, everything unfolded", screen: "#water", reach: unfoldAll },
  {
    name: "several entries that cannot be",
    screen: "#water",
    async reach(visit) {
      const { water } = visit;
      await unfoldAll(visit);
      await water.choose("container", "pot");
      const wrong = {
        "sunshine-hours": "abc",
        humidity: "140",
        coolest: "-99",
        height: "tall",
        trusses: "3.7.1",
        plants: "0",
        "pot-size": "-4",
        ground: "1e9",
        planted: "next week",
      };
      for (const [name, text] of Object.entries(wrong)) await water.fill(name, text);
      await water.leave();
    },
  },
  {
    name: "warmest and coolest that quarrel",
    screen: "#water",
    async reach({ water }) {
      await water.unfold("fine-tune");
      await water.fill("warmest", "12");
      await water.fill("coolest", "20");
      await water.leave();
    },
  },
  {
    name: "sodden compost",
    screen: "#water",
    async reach({ water }) {
      await water.press("sky", "clear");
      await water.press("feel", "sodden");
    },
  },
  {
    name: "several groups, one outdoors, with a long name",
    screen: "#water",
    async reach(visit) {
      const { water } = visit;
      await unfoldAll(visit);
      await water.fill("group-name", LONG_NAME);
      await water.fill("plants", "24");
      await water.add();
      await water.choose("container", "pot");
      await water.add();
      await water.press("place", "outdoors");
      await water.press("sky", "clear");
      await water.press("feel", "dry");
      await water.leave();
    },
  },
  {
    name: "a group removed, with the way back",
    screen: "#water",
    async reach({ water }) {
      await water.fill("group-name", LONG_NAME, "more-plants");
      await water.copy();
      await water.remove();
    },
  },
  {
    name: "a day without sun",
    screen: "#water",
    day: "2026-12-21T08:00:00",
    async reach({ frame, water, notebook }) {
      await frame.goTo("Notebook");
      await notebook.fill("latitude", "75");
      await frame.goTo("Morning water");
      await water.unfold("fine-tune");
    },
  },
  { name: "a notebook that is damaged", screen: "#water", before: (context) => keptBefore(context, "not a notebook") },
  { name: "storage that is blocked", screen: "#water", before: blockStorage },
  { name: "Feed mix", screen: "#feed" },
  { name: "Pest repeats", screen: "#pests" },
  { name: "Notebook", screen: "#notebook" },
  { name: "Notebook with a text set aside", screen: "#notebook", before: (context) => keptBefore(context, "not a notebook") },
  {
    name: "Notebook with entries that cannot be",
    screen: "#notebook",
    async reach({ notebook }) {
      await notebook.fill("can", "none");
      await notebook.fill("latitude", "97");
      await notebook.leave();
    },
  },
  {
    name: "Notebook in other units",
    screen: "#notebook",
    async reach({ notebook }) {
      await notebook.press("units", "us");
      await notebook.press("temperature-scale", "fahrenheit");
    },
  },
  { name: "a program that cannot start", arrive: withoutProgram },
  {
    name: "a program that has stopped",
    screen: "#water",
    // The panic hook does this and nothing else.
    reach: ({ page }) => page.evaluate(() => document.getElementById("stopped").removeAttribute("hidden")),
  },
];

/** Opens the page in `state`; `settings` as for a profile. The profile's end is the caller's. */
export async function reached(context, { screen, before, reach, arrive }) {
  if (arrive) return arrive(context);
  await before?.(context);
  const visit = await open(context, screen);
  await reach?.(visit);
  await visit.page.evaluate(() => document.fonts.ready);
  return visit;
}
