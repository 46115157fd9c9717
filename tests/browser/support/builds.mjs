// The release page, and further versions made of it.
import { execFile } from "node:child_process";
import { cp, mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after } from "node:test";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

import { required } from "./browser.mjs";

const PROJECT = fileURLToPath(new URL("../../../", import.meta.url));
const DIST = join(PROJECT, "dist");

const copies = [];
after(() => Promise.all(copies.map((folder) => rm(folder, { recursive: true, force: true }))));

/** The page as it was built, in a folder that a test may change. */
export async function firstVersion() {
  const folder = await mkdtemp(join(tmpdir(), "first-truss-build-"));
  copies.push(folder);
  await cp(DIST, folder, { recursive: true });
  return folder;
}

/** A later version: its page says so in `html[data-version]`. */
export async function laterVersion(version) {
  const folder = await firstVersion();
  const page = join(folder, "index.html");
  const html = await readFile(page, "utf8");
  await writeFile(page, html.replace("<html ", `<html data-version="${version}" `));
  await seal(folder);
  return folder;
}

/** A version whose program has other bytes under the same name: a section that no browser minds is put behind it. */
export async function sameNameVersion() {
  const folder = await firstVersion();
  const program = join(folder, await programName(folder));
  await writeFile(program, Buffer.concat([await readFile(program), Buffer.from([0, 5, 4, ...Buffer.from("more")])]));
  await seal(folder);
  return folder;
}

/** Lists the folder's files anew, as the build does. */
export function seal(folder) {
  return promisify(execFile)(required("FIRST_TRUSS_RUNNER"), ["seal", "--folder", folder], { cwd: PROJECT });
}

/** The part of the program that the first answer needs. */
export async function programName(folder) {
  return (await readdir(folder)).find((name) => name.endsWith("_bg.wasm"));
}

/** Puts the worker in place that takes the kept page off every device. */
export function retire(folder) {
  return cp(join(PROJECT, "src/browser/retire.js"), join(folder, "worker.js"));
}

export async function buildOf(folder) {
  return (await readFile(join(folder, "worker.js"), "utf8")).match(/^const BUILD = "(\w+)";/)[1];
}
