// Measures the page from its worker's cache after its server has stopped, in turn with cold visits of the plain page,
// and adds that to the file of JSON.
import { readFile, writeFile } from "node:fs/promises";

import { address, launch, launchWith, required } from "../support/browser.mjs";
import { MORNING, PHONE, phone } from "./conditions.mjs";
import { setDay } from "../support/visit.mjs";
import { visit } from "./visit.mjs";

const plainAddress = required("FIRST_TRUSS_PLAIN_ADDRESS");
const runs = Number(required("FIRST_TRUSS_RUNS"));
const file = required("FIRST_TRUSS_RESULT");

/** Whether anything answers at the page's address. */
function serverAnswers() {
  return fetch(address).then(
    () => true,
    () => false,
  );
}

/** Ends every worker, so that the next visit has to start its own, as after a night. */
async function stopWorkers(context) {
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send("ServiceWorker.enable");
  await session.send("ServiceWorker.stopAllWorkers");
  await page.close();
}

if (await serverAnswers()) throw new Error("The page's server should have been stopped.");
const browser = await launch();
const kept = await launchWith(required("FIRST_TRUSS_PROFILE"), { viewport: PHONE });
try {
  const result = JSON.parse(await readFile(file, "utf8"));
  await setDay(kept, MORNING);
  result.stopped = { plain: [], page: [] };
  const plain = async () => {
    const context = await phone(browser);
    result.stopped.plain.push(await visit(context, plainAddress));
    await context.close();
  };
  const page = async () => {
    await stopWorkers(kept);
    result.stopped.page.push(await visit(kept, address));
  };
  // The first visits also start both browsers' processes: they are not counted.
  await plain();
  await page();
  result.stopped = { plain: [], page: [] };
  for (let run = 0; run < runs; run += 1) {
    for (const turn of run % 2 === 0 ? [plain, page] : [page, plain]) await turn();
  }
  await writeFile(file, JSON.stringify(result, null, 1));
} finally {
  await kept.close();
  await browser.close();
}
