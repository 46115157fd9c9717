// Every screen and state looks as the pictures in `sight` have it: by day and at dusk, on four widths, and on paper.
import assert from "node:assert/strict";
import { createHash } from "node:crypto";
import { existsSync } from "node:fs";
import { mkdir, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { after, before, describe, test } from "node:test";

import { launch } from "../support/browser.mjs";
import { compared, kept, opened } from "../support/picture.mjs";
import { SIGHTS, SWITCHES, sighted } from "../support/sights.mjs";
import { takeSight } from "../support/still.mjs";
import { profile } from "../support/visit.mjs";

const REFERENCES = fileURLToPath(new URL("../sight/", import.meta.url));
const FOUND = fileURLToPath(new URL("../../../target/sight/", import.meta.url));
/** The major version of the Chromium that the references were taken with. */
const VERSION = join(REFERENCES, "chromium.txt");
/** Of each picture the check of its bytes as the browser gave them: where they are the same, nothing has to be compared. */
const CHECKS = join(REFERENCES, "checks.json");

/** Pixels that may differ in a picture: a letter that has moved has more. */
const MOST_PIXELS = 60;
/** The same with a Chromium of another major version, as a share of the picture, for it may draw letters and curves a little otherwise. */
const MOST_SHARE = 0.01;

const isAccepting = process.env.FIRST_TRUSS_SIGHT === "accept";
const only = process.env.FIRST_TRUSS_SIGHT_ONLY ?? "";
const chosen = SIGHTS.filter(({ name }) => name.includes(only));

const taken = new Set();
/** How many states could not be pictured to the end. */
let missed = 0;
const checks = JSON.parse(await readFile(CHECKS, "utf8").catch(() => "{}"));
let browser;
let isOtherVersion = false;

before(async () => {
  browser = await launch(SWITCHES);
  await rm(FOUND, { recursive: true, force: true });
  await mkdir(FOUND, { recursive: true });
  const major = browser.version().split(".")[0];
  if (isAccepting) {
    await mkdir(REFERENCES, { recursive: true });
    if (!only) await writeFile(VERSION, `${major}\n`);
    return;
  }
  const recorded = (await readFile(VERSION, "utf8")).trim();
  isOtherVersion = major !== recorded;
  if (isOtherVersion) {
    console.log(`The pictures were taken with Chromium ${recorded}, and this is ${major}: ${MOST_SHARE * 100} % of each may differ instead of ${MOST_PIXELS} pixels.`);
  }
});
after(async () => {
  await browser?.close();
  if (!isAccepting) return;
  const left = Object.entries(checks).filter(([name]) => only || missed > 0 || taken.has(`${name}.png`));
  const ordered = left.sort(([one], [other]) => (one < other ? -1 : 1));
  await writeFile(CHECKS, `${JSON.stringify(Object.fromEntries(ordered), null, 0).replaceAll(",", ",\n")}\n`);
});

describe("each state looks as it should", { concurrency: 2 }, () => {
  for (const state of chosen) {
    test(state.name, async () => {
      const { day, device } = state;
      const context = await profile(browser, { day, device: { deviceScaleFactor: 1, ...device }, worker: false, bypassPolicy: true });
      const faults = [];
      missed += 1;
      try {
        const { page } = await sighted(context, state);
        await takeSight(page, state, async (name, bytes) => {
          taken.add(`${name}.png`);
          const fault = await held(name, bytes);
          if (fault) faults.push(fault);
        });
        missed -= 1;
      } finally {
        await context.close();
      }
      assert.ok(faults.length === 0, `\n${faults.join("\n")}\nLook at target/sight. If it is as it should be: cargo task sight --accept --only ${state.name}`);
    });
  }
});

test("each picture has its state", async () => {
  assert.ok(chosen.length > 0, `a state has "${only}" in its name`);
  if (only) return;
  const left = (await readdir(REFERENCES)).filter((name) => name.endsWith(".png") && !taken.has(name));
  if (isAccepting) {
    assert.equal(missed, 0, "states that could not be pictured: no picture is taken away");
    await Promise.all(left.map((name) => rm(join(REFERENCES, name))));
  } else assert.deepEqual(left, [], "no state is pictured by these: cargo task sight --accept takes them away");
});

/** What is wrong with a picture, in a sentence, or null. */
async function held(name, bytes) {
  const path = join(REFERENCES, `${name}.png`);
  const check = createHash("sha256").update(bytes).digest("hex").slice(0, 16);
  if (checks[name] === check && existsSync(path)) return null;
  const shown = opened(bytes);
  const reference = await readFile(path).then(opened, () => null);
  const found = reference && compared(shown, reference);
  const most = isOtherVersion ? Math.round(shown.width * shown.height * MOST_SHARE) : MOST_PIXELS;
  if (isAccepting) {
    checks[name] = check;
    if (!found || found.differing > 0 || found.flat) await writeFile(path, kept(shown));
    return null;
  }
  if (found && found.differing <= most && !found.flat) return null;
  await writeFile(join(FOUND, `${name}.png`), bytes);
  if (!found) return `${name} has no picture yet.`;
  if (found.difference) await writeFile(join(FOUND, `${name}-difference.png`), found.difference);
  const sizes = [reference, shown].map(({ width, height }) => `${width} by ${height}`);
  if (sizes[0] !== sizes[1]) return `${name} is ${sizes[1]} and was ${sizes[0]}.`;
  if (found.differing > most) return `${name} differs in ${found.differing} pixels, of which ${most} may.`;
  return `${name} has other colours than it had.`;
}
