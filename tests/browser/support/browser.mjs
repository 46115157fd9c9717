// Starts the browser that the task runner found.
import { chromium } from "playwright-core";

import { required } from "./required.mjs";

export { required };

/** What the browser's own window does beside the page, and nobody looks at. */
const WINDOW = [
  // Two pages of the address bar, some 400 files, are read for every profile: two fifths of the processor time of a visit.
  "WebUIOmniboxPopup",
  "WebUIOmniboxAimPopup",
  // Of several such switches Chromium heeds the last alone: what playwright-core 1.65 turns off stands here again.
  "AimEnabled",
  "AvoidCorsURLLoaderRestartOnRedirect",
  "AvoidUnnecessaryBeforeUnloadCheckSync",
  "DestroyProfileOnBrowserClose",
  "HttpsFirstBalancedModeAutoEnable",
  "HttpsUpgrades",
  "LensOverlay",
  "MediaRouter",
  "NetworkTimeServiceQuerying",
  "OptimizationHints",
  "PaintHolding",
  "PreconnectToSearch",
  "ThirdPartyStoragePartitioning",
];

const ARGUMENTS = [
  "--no-sandbox", // Chromium has no sandbox for root, which is who runs tests in a container.
  "--disable-gpu",
  "--disable-quic",
  "--disable-dev-shm-usage",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  `--disable-features=${WINDOW}`,
];

/** The address of the served page, which the task runner chose. */
export const address = required("FIRST_TRUSS_ADDRESS");

/** `more` are further switches of the browser's own. */
export function launch(more = []) {
  return chromium.launch({ executablePath: required("CHROME"), args: [...ARGUMENTS, ...more] });
}

/** A browser with a profile that is kept in `folder`: a profile for one visit counts as private, and nothing installs from it. */
export function launchWith(folder, settings) {
  return chromium.launchPersistentContext(folder, { executablePath: required("CHROME"), args: ARGUMENTS, ...settings });
}

/** The same with `more` of the browser's own switches. */
export function launchKept(folder, more = []) {
  return launchWith(folder, { args: [...ARGUMENTS, ...more] });
}

/** The page in a window of its own, as after installing. */
export function launchInstalled(folder) {
  return launchKept(folder, [`--app=${address}`]);
}
