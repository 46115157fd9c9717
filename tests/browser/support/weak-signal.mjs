// The program is slow to come, as on a weak signal.

/** Holds the program back until the returned function is called. */
export async function heldProgram(page) {
  let letGo;
  const held = new Promise((resolve) => {
    letGo = resolve;
  });
  await page.route("**/*.wasm", async (route) => {
    await held;
    await route.continue();
  });
  return letGo;
}
