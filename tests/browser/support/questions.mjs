// The growers' questions of the native checks, read from their table: so that the page is asked the same, and none is left out.
import { readFileSync } from "node:fs";

/** One value of the table: a text, a list of texts or numbers, a number, true or false, or an inline table. */
function value(text) {
  if (text.startsWith("{")) {
    const parts = text.slice(1, -1).matchAll(/([\w-]+) = ("[^"]*"|[^,]+)/g);
    return Object.fromEntries([...parts].map(([, key, text]) => [key, value(text.trim())]));
  }
  return JSON.parse(text);
}

/** The questions of `tests/questions/NAME.toml`, each with its keys. */
export function questions(name) {
  const text = readFileSync(new URL(`../../questions/${name}.toml`, import.meta.url), "utf8");
  const blocks = text.split("[[question]]\n").slice(1);
  return blocks.map((block) => {
    const lines = block.split("\n").filter((line) => line && !line.startsWith("#"));
    return Object.fromEntries(
      lines.map((line) => {
        const at = line.indexOf(" = ");
        return [line.slice(0, at), value(line.slice(at + 3))];
      }),
    );
  });
}
