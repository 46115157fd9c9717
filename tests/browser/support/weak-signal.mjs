// The program is slow to come, as on a weak signal.

/** Holds the rest of the program back until the returned function is called. */
export function heldRest(page) {
  return held(page, "**/*_rest.wasm");
}

/** Holds the styles of the rest back until the returned function is called. */
export function heldStyles(page) {
  return held(page, "**/rest.css");
}

/** Holds the program, its loader and the styles that come with that back until the returned function is called. */
export function heldProgram(page) {
  return held(page, "**/first-truss-*");
}

async function held(page, files) {
  let letGo;
  const free = new Promise((resolve) => {
    letGo = resolve;
  });
  await page.route(files, async (route) => {
    await free;
    await route.continue();
  });
  return letGo;
}
