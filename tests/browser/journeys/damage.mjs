// What is kept is damaged, newer, or cannot be kept: nothing is overwritten, and the grower is told.
import assert from "node:assert/strict";

import { NOTEBOOK_KEY, open, reload } from "../support/visit.mjs";
import { cleanJourney, journey } from "../support/journey.mjs";

const everythingKept = (page) => page.evaluate(() => Object.values({ ...localStorage }));

/** What a notebook looks like after a few entries. */
async function sample(browserContext) {
  const { page, water } = await open(browserContext);
  await water.press("sky", "clear");
  await water.typeSlowly("height", "5");
  const text = await page.evaluate((key) => localStorage.getItem(key), NOTEBOOK_KEY);
  await page.evaluate(() => localStorage.clear());
  await page.close();
  return text;
}

/** The page finds `damage(text)` in place of the text it kept. */
function damaged(name, damage) {
  journey(`${name}: set aside and offered, not overwritten`, {}, async (context) => {
    const text = damage(await sample(context));
    const visit = await openWith(context, text);
    const { water } = visit;

    assert.match(await visit.page.locator("#notice").innerText(), /set aside/);
    assert.ok((await water.dose()) > 0, "the page works all the same");
    assert.ok((await everythingKept(visit.page)).includes(text), "the text is still there");

    await water.press("sky", "bright");
    await water.typeSlowly("trusses", "6");
    await reload(visit.page);
    assert.equal(await water.pressed("sky"), "bright", "the new notebook is kept");
    assert.ok((await everythingKept(visit.page)).includes(text), "and the old text beside it");

    await visit.page.goto(new URL("#notebook", visit.page.url()).href);
    const download = visit.page.waitForEvent("download");
    await visit.page.getByRole("button", { name: "Save set-aside text 1 to a file" }).click();
    assert.equal(await contents(await download), text, "the offered file is the text itself");
    visit.watched.assertClean();
  });
}

/** Opens the page with `text` in the storage; a reload then finds what the page itself left. */
async function openWith(context, text) {
  await context.addInitScript(
    ([key, text]) => {
      if (sessionStorage.getItem("damaged") === null) {
        sessionStorage.setItem("damaged", "yes");
        localStorage.setItem(key, text);
      }
    },
    [NOTEBOOK_KEY, text],
  );
  return open(context);
}

async function contents(download) {
  const chunks = [];
  for await (const chunk of await download.createReadStream()) chunks.push(chunk);
  return Buffer.concat(chunks).toString("utf8");
}

damaged("a notebook cut short", (text) => text.slice(0, text.length / 2));
damaged("a notebook with one digit changed", (text) => text.replace(/"5"/, '"6"'));
damaged("a notebook that is other text", () => "not a notebook – ½ \u{1F345}");
damaged("a notebook of a newer form", (text) => text.replace('"first-truss":1', '"first-truss":99'));

cleanJourney("a whole notebook opens without a word", {}, async ({ page, water }) => {
  await water.press("sky", "dull");
  await reload(page);
  assert.equal(await page.locator("#notice").isVisible(), false);
  assert.equal(await water.pressed("sky"), "dull");
});

journey("storage that is blocked is told, and the page works", {}, async (context) => {
  await context.addInitScript(() => {
    Object.defineProperty(window, "localStorage", {
      get() {
        throw new DOMException("Access is denied for this document.", "SecurityError");
      },
    });
  });
  const { water, watched, page } = await open(context);
  const before = await water.dose();
  await water.press("sky", "clear");
  assert.ok((await water.dose()) > before);
  assert.match(await page.locator("#notice").innerText(), /kept/);
  watched.assertClean();
});

journey("storage that is full is told, and the old notebook stays", {}, async (context) => {
  const { page, water, watched } = await open(context);
  await water.press("sky", "clear");
  const kept = await page.evaluate((key) => localStorage.getItem(key), NOTEBOOK_KEY);
  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException("The quota has been exceeded.", "QuotaExceededError");
    };
  });
  await water.press("sky", "dark");
  assert.match(await page.locator("#notice").innerText(), /kept/);
  assert.equal(await page.evaluate((key) => localStorage.getItem(key), NOTEBOOK_KEY), kept);
  watched.assertClean();
});
