// The automatic rules of axe-core, with those that a wet thumb and the sun need.
import assert from "node:assert/strict";
import { createRequire } from "node:module";

const SCRIPT = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

/** Off by default. */
const EXTRA = {
  "target-size": { enabled: true },
  "color-contrast-enhanced": { enabled: true },
  // Two of one name, and a label speaks for the wrong one.
  "duplicate-id": { enabled: true },
};

/** The rules that read colours. Between light and dark nothing else differs: `style/tokens.css` alone asks which it is. */
const COLOURS = ["color-contrast", "color-contrast-enhanced"];

/**
 * What breaks a rule on `page`, a line each; with `coloursAlone`, only what its colours break. The profile must let a test
 * bring scripts of its own.
 */
export async function brokenRules(page, { coloursAlone = false } = {}) {
  if (!(await page.evaluate(() => "axe" in window))) await page.addScriptTag({ path: SCRIPT });
  const which = coloursAlone ? { runOnly: COLOURS } : { rules: EXTRA };
  const { violations, passes } = await page.evaluate(
    (which) => window.axe.run({ ...which, resultTypes: ["violations"] }),
    which,
  );
  const checked = new Set([...passes, ...violations].map(({ id }) => id));
  for (const rule of coloursAlone ? COLOURS : Object.keys(EXTRA)) assert.ok(checked.has(rule), `${rule} was not checked`);
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id} ${target}: ${failureSummary.replaceAll(/\s+/g, " ")}`),
  );
}
