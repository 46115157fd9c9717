// Starts the browser that the task runner found.
import { chromium } from "playwright-core";

const ARGUMENTS = [
  "--no-sandbox", // Chromium has no sandbox for root, which is who runs tests in a container.
  "--disable-gpu",
  "--disable-quic",
  "--disable-dev-shm-usage",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/** The address of the served page, which the task runner chose. */
export const address = required("FIRST_TRUSS_ADDRESS");

export function launch() {
  return chromium.launch({ executablePath: required("CHROME"), args: ARGUMENTS });
}

export function required(name) {
  const value = process.env[name];
  if (!value) {
    throw new Error(`${name} is not set: start this through \`cargo task\`.`);
  }
  return value;
}
