// A plan goes to a neighbour's phone by a link, and the list comes back by another. Each has a browser profile of its own.
import assert from "node:assert/strict";

import { HandOver } from "../pages/hand-over.mjs";
import { PestRepeats } from "../pages/pest-repeats.mjs";
import { Versions } from "../pages/versions.mjs";
import { firstVersion } from "../support/builds.mjs";
import { hostedJourney } from "../support/hosted.mjs";
import { cleanJourney } from "../support/journey.mjs";
import { NOTEBOOK_KEY, comeBack, open, profile, reload, setDay, started } from "../support/visit.mjs";

const JULY = "2026-07-09T07:40:00";

const first = async () => ({ "/": await firstVersion() });

const kept = (page) => page.evaluate((key) => localStorage.getItem(key), NOTEBOOK_KEY);

/** Plants with a few mornings behind them, two groups, one outdoors. */
async function grow({ page, water }) {
  await water.fill("plants", "12");
  await water.fill("height", "5");
  await water.add();
  await water.press("place", "outdoors");
  await water.fill("plants", "4");
  for (const [day, feel] of [["05", "dry"], ["06", "dry"], ["07", "moist"], ["08", "dry"], ["09", "dry"]]) {
    await comeBack(page, `2026-07-${day}T07:40:00`);
    await water.press("sky", day === "07" ? "dull" : "clear");
    await water.press("feel", feel);
    if (day !== "09") await water.watered().click();
  }
}

const doses = async (water) => {
  const of = (place) => Promise.all([water.dose(place), water.low(place), water.high(place)]);
  return [...(await of(1)), ...(await of(2)), await water.total()];
};

/** Goes to a link as a tap on it does. */
async function follow(page, address) {
  await page.evaluate((address) => void (location.href = address), address);
  await page.waitForFunction((address) => location.href === address, address);
  await page.locator("#question").waitFor();
}

hostedJourney("a neighbour without signal gets the same dose and sends the list back", first, async ({ host, context, visit }) => {
  const own = await visit("#water");
  await grow(own);
  const owner = new HandOver(own.page);
  const here = await doses(owner);
  const link = await owner.link("Plot 14, Marlpit Lane");
  assert.match(link, /^http:\/\/127\.0\.0\.1:\d+\/#s1\.[A-Za-z0-9\-_.~]+[A-Za-z0-9]$/);
  assert.ok(link.length <= 200, `${link.length}: ${link}`);
  assert.doesNotMatch(link, /Marlpit_Lane.*Marlpit/, "the plot is named once");

  const other = await profile(context.browser(), { day: JULY });
  try {
    const before = await open(other, "", host.address("/"));
    await new Versions(before.page).kept();
    const itsOwn = await kept(before.page);
    await before.page.close();
    await host.stop();

    const visitor = await open(other, `#${link.split("#")[1]}`, host.address("/"));
    const { page } = visitor;
    const neighbour = new HandOver(page);
    assert.match(await page.locator("#whose").innerText(), /Plot 14, Marlpit Lane\s+Fri 10 July to Thu 16 July: please water these 16 plants [a-z\d ]+, beginning by [A-Z][a-z]+ \d+ July\./);
    assert.match(await page.locator("#whose").innerText(), /A can is the plot’s own, taken to hold 2 gallons\./);
    const early = /Before Fri 10 July the plot’s own grower waters/;
    assert.match(await page.locator("#whose").innerText(), early);
    assert.deepEqual(await doses(neighbour), here, "to the last figure");
    assert.equal(await neighbour.pressed("sky"), "clear", "what was told of yesterday came along");
    assert.equal(await kept(page), itsOwn, "its own notebook is as it was");

    // Two mornings later.
    await comeBack(page, "2026-07-11T08:05:00");
    await neighbour.press("sky", "bright");
    assert.equal(await neighbour.pressed("feel"), null);
    const dose = await neighbour.dose();
    const round = await neighbour.round();
    assert.ok(round.some((line) => line.startsWith("Water")), `${round}`);
    await neighbour.tick("Water");
    assert.match(await neighbour.noted(), /Watered at \d+\.05/);
    const other1 = round.find((line) => !line.startsWith("Water"));
    if (other1) await neighbour.tick(other1.split("\n")[0]);
    await reload(page);
    assert.equal(await neighbour.ticked("Water"), true, "what was ticked is kept");
    assert.doesNotMatch(await page.locator("#whose").innerText(), early, "their days have begun");
    assert.equal(await kept(page), itsOwn, "and not in its own notebook");
    const reply = await neighbour.text("reply-address");
    assert.match(reply, /#a1\.[A-Za-z0-9\-_.~]+[A-Za-z0-9]$/);

    // The own screens are where they were.
    await visitor.frame.goTo("Morning water");
    assert.equal(await page.locator("#whose").count(), 0);
    assert.equal(await visitor.water.pressed("sky"), null);

    await comeBack(own.page, "2026-07-12T18:00:00");
    const kept12 = await kept(own.page);
    await follow(own.page, reply);
    const list = await own.page.locator("#came-back").innerText();
    assert.match(list, /Sat 11 July\. /);
    assert.match(list, /Under glass: [\d¼½¾]+ pints? a plant/);
    assert.match(list, /The day was bright|Fri 10 July\. .*The day was bright/);
    assert.equal(await own.page.locator("#by-link .error-note").count(), 0, "the plan is known here");
    assert.equal(await kept(own.page), kept12, "nothing is noted before it is asked for");
    await own.page.getByRole("button", { name: "Note it in my notebook" }).click();
    await own.page.waitForFunction(() => document.activeElement.textContent === "Undo");
    await own.frame.goTo("Morning water");
    const row = (await owner.days()).find((cells) => cells[0].includes("11 July"));
    assert.ok(row, "the day is in the list");
    assert.match(await kept(own.page), new RegExp(`id=2026-07-11\\n(.*\\n)*given0=${String(dose).replace(".", "\\.")}`));
    await follow(own.page, reply);
    visitor.watched.assertClean();
  } finally {
    await other.close();
  }
});

cleanJourney("the square code says what the link says, by day and at dusk", { day: JULY }, async (visit) => {
  const { page } = visit;
  const owner = new HandOver(page);
  await grow(visit);
  const link = await owner.link("Plot 14");
  for (const colorScheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme });
    for (const width of [390, 320, 1280]) {
      await page.setViewportSize({ width, height: 844 });
      assert.equal(await owner.square(), link, `${colorScheme} at ${width}`);
    }
  }
  // A link of eight groups is as long as a square code can be.
  for (let group = 3; group <= 8; group += 1) await owner.copy();
  await page.getByText("Something has changed since").waitFor();
  const long = await owner.link();
  assert.notEqual(long, link);
  if (long.length <= 400) assert.equal(await owner.square(), long);
  else await page.getByText("too long for a square code").waitFor();
});

cleanJourney("what goes along is chosen, and a changed plan asks for a new link", { day: JULY }, async (visit) => {
  const { page, water, frame } = visit;
  const owner = new HandOver(page);
  await water.fill("group-name", "Grandfather's lean-to", "more-plants");
  const link = await owner.link();
  assert.doesNotMatch(link, /Grandfather/);
  await page.locator("#share-names").check({ force: true });
  await page.getByText("Something has changed since").waitFor();
  assert.match(await owner.link(), /NGrandfather/);
  await water.press("sky", "dark");
  await page.getByText("Something has changed since").waitFor();
  // What changes no dose, but the plan.
  await owner.link();
  const stale = page.getByText("Something has changed since");
  assert.equal(await stale.count(), 0);
  await frame.goTo("Notebook");
  await water.fill("can", "1");
  await frame.goTo("Morning water");
  await water.unfold("share");
  await stale.waitFor();
});

cleanJourney("a damaged link is told, and changes nothing", { day: JULY }, async (visit) => {
  const { page, water, frame } = visit;
  const owner = new HandOver(page);
  await water.fill("plants", "7");
  const link = await owner.link();
  const total = await water.total();
  const before = await kept(page);
  const damages = [
    [link.slice(0, -3), /The end of this link is missing/],
    [`${link.slice(0, -1)}${link.endsWith("0") ? "1" : "0"}`, /This link was changed or cut on its way\./],
    [link.replace("#s1.", "#s2."), /made by a newer First Truss/],
    [link.replace("#s1.", "#q1."), /not a link that First Truss makes/],
    [`${link}%3Cscript%3E`, /a character that does not belong there/],
    [`${link.split("#")[0]}#s1.${"a".repeat(8500)}`, /longer than any/],
  ];
  for (const [address, sentence] of damages) {
    await follow(page, address);
    await page.locator("#by-link .error-note").waitFor();
    assert.match(await page.locator("#by-link").innerText(), sentence);
    assert.match(await page.locator("#by-link").innerText(), /Nothing was changed\.$/);
  }
  await frame.goTo("Morning water");
  assert.equal(await water.total(), total);
  assert.equal(await kept(page), before);
});

cleanJourney("another plot's plants are kept only when it is asked for, and that can be undone", { day: JULY }, async (visit) => {
  const { page, water, frame } = visit;
  const owner = new HandOver(page);
  await grow(visit);
  const link = await owner.link("Plot 9");
  const dose = await water.dose();
  await page.evaluate(() => localStorage.clear());
  await page.goto("about:blank");
  await page.goto(link);
  await page.waitForFunction(() => window.firstTrussStarted && document.querySelector("#whose"));
  assert.equal(await water.dose(), dose);
  assert.equal(await kept(page), null);
  await page.getByRole("button", { name: "Keep them in my notebook" }).click();
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  await frame.goTo("Morning water");
  assert.equal((await water.groups()).length, 3, "beside the first group");
  await water.press("sky", "clear");
  assert.equal(await water.dose(2), dose, "with what was learnt");
  await frame.goTo("Notebook");
  await page.locator("#copy").getByRole("button", { name: "Undo" }).click();
  await frame.goTo("Morning water");
  assert.equal((await water.groups()).length, 1);
  // Kept again, they forget what they taught when they are told to.
  await follow(page, link);
  await page.getByRole("button", { name: "Keep them in my notebook" }).click();
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  await frame.goTo("Morning water");
  assert.equal(await water.dose(2), dose);
  await page.locator('label:has(> input[name="group"])').nth(1).click();
  const learnt = page.locator("#learnt");
  await learnt.getByRole("button", { name: "Forget it" }).click();
  await learnt.waitFor({ state: "detached" });
  assert.notEqual(await water.dose(2), dose);
});

hostedJourney("a spray goes to a neighbour only as it is chosen; what is done by hand goes along, and says how", first, async ({ context, visit, host }) => {
  const own = await visit("#pests");
  const pests = new PestRepeats(own.page);
  await pests.press("control", "contact-spray");
  await pests.readLabel({ least: "7", most: "9", picking: "1" });
  await own.frame.goTo("Morning water");
  const owner = new HandOver(own.page);
  const due = async (link) => {
    const other = await profile(context.browser(), { day: JULY });
    try {
      const { page } = await open(other, `#${link.split("#")[1]}`, host.address("/"));
      await page.locator("#whose").waitFor();
      return await page.locator("main").innerText();
    } finally {
      await other.close();
    }
  };
  const link = await owner.link();
  const byHand = await due(link);
  assert.match(byHand, /please (water|look in on) /);
  assert.match(byHand, /Whitefly: Shake and vacuum/);
  assert.doesNotMatch(byHand, /spray/i);
  await own.page.locator("#share-sprays").check({ force: true });
  const withSprays = await due(await owner.link());
  assert.match(withSprays, /Whitefly: Soap or oil spray/);
  assert.match(withSprays, /only by someone who has its label in hand/);
});

hostedJourney("what the grower fills on the first day away is not poured again by the neighbour", first, async ({ context, visit, host }) => {
  const own = await visit("#water");
  await grow(own);
  await own.water.watered().click();
  const link = await new HandOver(own.page).link();
  const other = await profile(context.browser(), { day: "2026-07-11T08:00:00" });
  try {
    const { page } = await open(other, `#${link.split("#")[1]}`, host.address("/"));
    await page.locator("#whose").waitFor();
    const card = new HandOver(page);
    assert.doesNotMatch(await page.locator("main").innerText(), /That is for \d+ days/);
    const one = await card.dose();
    assert.ok(one > 0.5, `${one}`);
    await comeBack(page, "2026-07-12T08:00:00");
    assert.match(await page.locator("main").innerText(), /That is for 2 days: nothing was noted as poured yesterday\./);
    const two = await card.dose();
    assert.ok(two > 1.6 * one && two < 2.4 * one, `${one}, ${two}`);
    assert.equal(await page.locator("#missed").count(), 0);
    const days = (await card.text("reply-address")).split("#")[1].split(".").filter((part) => part.startsWith("d"));
    assert.equal(days.length, 1, "nobody has told of any day since the one of the plan");
  } finally {
    await other.close();
  }
});

/** What is kept, without the lines that every writing changes. */
const body = async (page) => (await kept(page)).split("\n").slice(3).filter((line) => !line.startsWith("after=")).join("\n");

cleanJourney("a list that came back is noted, and that can be undone", { day: JULY }, async (visit) => {
  const { page, frame } = visit;
  const owner = new HandOver(page);
  await grow(visit);
  const link = await owner.link("Plot 14");
  // A neighbour with the same phone: what is kept of the card is apart.
  await follow(page, link);
  await comeBack(page, "2026-07-10T08:00:00");
  await owner.press("sky", "bright");
  await owner.press("feel", "moist");
  await owner.tick("Water");
  const reply = await owner.text("reply-address");
  await frame.goTo("Morning water");
  await owner.press("sky", "mixed");
  const before = { body: await body(page), doses: await doses(owner), days: await owner.days() };
  await follow(page, reply);
  const button = page.locator("#note-reply").getByRole("button");
  const told = await page.locator("#came-back").innerText();
  await button.press("Enter");
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  assert.match(await page.locator("#note-reply").innerText(), /In your notebook/);
  const noted = await body(page);
  assert.notEqual(noted, before.body);
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement.textContent === "Note it in my notebook");
  assert.equal(await body(page), before.body, "nothing of it is left");
  assert.equal(await page.locator("#came-back").innerText(), told, "the list still stands there");
  await frame.goTo("Morning water");
  assert.deepEqual({ body: await body(page), doses: await doses(owner), days: await owner.days() }, before);
  await reload(page);
  assert.deepEqual(await doses(owner), before.doses, "and it stays so");
  // Noted once more it is as it was the first time, and stays.
  await follow(page, reply);
  await button.click();
  await page.waitForFunction(() => document.activeElement.textContent === "Undo");
  assert.equal(await body(page), noted);
  await frame.goTo("Morning water");
  await reload(page);
  assert.equal(await body(page), noted);
  await follow(page, reply);
  await page.getByText("All of this is in your notebook already.").waitFor();
  assert.equal(await button.count(), 0, "there is nothing more to note");
});

cleanJourney("a neighbour’s card goes long after it was used last, and no other", { day: JULY }, async (visit) => {
  const { page } = visit;
  const neighbour = new HandOver(page);
  await grow(visit);
  const link = await neighbour.link("Plot 14");
  await follow(page, link);
  await neighbour.tick("Water: Outdoors");
  const cards = () => page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("first-truss.card.")).sort());
  const [card] = await cards();
  const text = await page.evaluate((card) => localStorage.getItem(card), card);
  // One of another plot that cannot be opened, and one from which something was set aside.
  await page.evaluate(
    ([text]) => {
      localStorage.setItem("first-truss.card.7", text.slice(0, -9));
      localStorage.setItem("first-truss.card.8", text);
      localStorage.setItem("first-truss.card.8.set-aside.0", "something");
    },
    [text],
  );
  await visit.frame.goTo("Morning water");
  const own = await body(page);
  await comeBack(page, "2026-10-21T08:00:00"); // 104 days later
  assert.ok((await cards()).includes(card), "for about a month after the longest absence it stays");
  // Whoever opens its link again finds what was ticked.
  await setDay(page.context(), "2026-11-20T08:00:00");
  await page.goto("about:blank");
  await page.goto(link);
  await page.waitForFunction(() => window.firstTrussStarted && document.querySelector("#send-back"));
  assert.ok((await cards()).includes(card), "what is looked at stays");
  assert.match(await neighbour.text("reply-address"), /#a1\..*d/);
  await page.goto("about:blank");
  await page.goto(link.split("#")[0]);
  await started(page);
  assert.deepEqual(await cards(), ["first-truss.card.7", "first-truss.card.8", "first-truss.card.8.set-aside.0"]);
  assert.ok((await body(page)).includes("given0="), "the own notebook keeps its days");
  assert.equal(own.includes("Plot 14"), false);
});
