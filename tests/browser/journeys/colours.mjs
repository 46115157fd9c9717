// Where the device allows only its own few colours, everything is still told: what is drawn, chosen, set, guessed and wrong.
import assert from "node:assert/strict";

import { brokenRules } from "../support/axe.mjs";
import { journey } from "../support/journey.mjs";
import { coloured, differing, pixels } from "../support/pixels.mjs";
import { open } from "../support/visit.mjs";

/** Fewer changed pixels could be a letter that moved. */
const PLAIN_TO_SEE = 60;

for (const colorScheme of ["light", "dark"]) {
  const device = { forcedColors: "active" };
  journey(`forced colours lose nothing, ${colorScheme}`, { colorScheme, device, worker: false, bypassPolicy: true }, async (context) => {
    // First, for a page behind another is hardly drawn.
    const desk = await context.newPage();
    const { page, water, frame, watched } = await open(context, "#water");
    /** What an element looks like. */
    const look = async (selector) => {
      const bytes = await page.locator(selector).first().screenshot();
      return pixels(desk, bytes, "image/png");
    };
    const key = (name, value) => `label:has(> input[name="${name}"][value="${value}"])`;
    /** Does `act` and asserts that everything in `selectors` looks plainly different. */
    const shows = async (what, selectors, act) => {
      const before = [];
      for (const selector of selectors) before.push(await look(selector));
      await act();
      await water.leave();
      for (const [index, selector] of selectors.entries()) {
        let changed = 0;
        // Some parts follow a moment after the answer.
        for (let tries = 0; tries < 20 && changed <= PLAIN_TO_SEE; tries += 1) {
          changed = differing(before[index], await look(selector));
        }
        assert.ok(changed > PLAIN_TO_SEE, `${what}: ${changed} pixels of ${selector} changed`);
      }
    };
    const [canvas, ink] = await page.evaluate(() =>
      ["Canvas", "CanvasText"].map((name) => {
        const probe = document.createElement("i");
        probe.style.color = name;
        document.body.append(probe);
        const [red, green, blue] = getComputedStyle(probe).color.match(/\d+/g).map(Number);
        probe.remove();
        return [red, green, blue];
      }),
    );
    assert.notDeepEqual(canvas, ink);

    await shows("a guess that is none any more", [key("sky", "mixed")], () => water.press("sky", "dark"));
    await shows("another sky", [".jug", key("sky", "clear"), key("sky", "dark")], () => water.press("sky", "clear"));
    await shows("another feel", [key("feel", "dry")], () => water.press("feel", "dry"));
    await shows("a truss", [".pip >> nth=0", ".plant"], () => page.locator(".pip").first().click());
    await shows("a tick", ["label.tick"], () => page.locator("label.tick").first().click());
    await shows("a field that is wrong", [".step:has(#height)"], () => water.fill("height", "tall"));
    await water.fill("height", "5");
    await water.copy();
    await shows("another group", [key("group", "0"), key("group", "1")], () => water.press("group", "0"));
    // The drawings stand out of the ground: ink for their outlines, and the water in the jug.
    const water_ = [0x2f, 0x86, 0xc1];
    const jug = await look(".jug");
    assert.ok(coloured(jug, water_) > 300, "water in the jug");
    assert.ok(coloured(jug, ink) > 150, "the jug's outline");
    const plant = await look(".plant");
    assert.ok(coloured(plant, ink) > 500, "the plant's outline");
    assert.ok(coloured(plant, canvas) > 500, "on the ground");
    const left = await look("fieldset.keys-sec");
    await page.locator("[name=sky]:checked").focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowLeft");
    const ring = differing(left, await look("fieldset.keys-sec"));
    assert.ok(ring > PLAIN_TO_SEE, `the ring of the focus: ${ring} pixels`);

    // What can be pressed or typed in has an edge, for its ground may vanish.
    const without = await page.evaluate(() =>
      [...document.querySelectorAll(".face, .stepper, .field, .btn, .tick i, .pip span, .lbl span, .plate")]
        .filter((box) => box.checkVisibility())
        .filter((box) => {
          const { borderTopWidth, borderTopStyle, borderTopColor, backgroundColor } = getComputedStyle(box);
          const { backgroundColor: around } = getComputedStyle(document.body);
          return borderTopStyle === "none" || parseFloat(borderTopWidth) < 1.5 || [backgroundColor, around].every((colour) => colour === borderTopColor);
        })
        .map(({ className }) => className),
    );
    assert.deepEqual(without, []);
    assert.deepEqual(await brokenRules(page, { coloursAlone: true }), []);
    await shows("another screen", ['.tab[href="#water"]', '.tab[href="#feed"]'], () => frame.goTo("Feed mix"));
    watched.assertClean();
  });
}
