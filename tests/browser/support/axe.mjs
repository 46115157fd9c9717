// The automatic rules of axe-core, which runs inside the page.
import assert from "node:assert/strict";
import { createRequire } from "node:module";

const SCRIPT = createRequire(import.meta.url).resolve("axe-core/axe.min.js");

/** Off by default, though a wet thumb and the sun need both. */
const RULES = { "target-size": { enabled: true }, "color-contrast-enhanced": { enabled: true } };

/** What breaks a rule on `page`, a line each. The profile must let a test bring scripts of its own. */
export async function brokenRules(page) {
  if (!(await page.evaluate(() => "axe" in window))) await page.addScriptTag({ path: SCRIPT });
  const { violations, passes } = await page.evaluate(
    (rules) => window.axe.run({ rules, resultTypes: ["violations", "passes"] }),
    RULES,
  );
  const checked = new Set([...passes, ...violations].map(({ id }) => id));
  for (const rule of Object.keys(RULES)) assert.ok(checked.has(rule), `${rule} was not checked`);
  return violations.flatMap(({ id, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id} ${target}: ${failureSummary.replaceAll(/\s+/g, " ")}`),
  );
}
