import { chromium } from "playwright-core";
const url = process.argv[2], rate = Number(process.argv[3] ?? 6), how = process.argv[4] ?? "height";
const b = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
const page = await (await b.newContext({ viewport: { width: 390, height: 844 } })).newPage();
const s = await page.context().newCDPSession(page);
await page.goto(url, { waitUntil: "networkidle" });
await page.waitForSelector("#answer-dose");
const field = page.locator('[name="height"]');
await field.scrollIntoViewIfNeeded(); await field.focus(); await page.waitForTimeout(300);
await s.send("Emulation.setCPUThrottlingRate", { rate });
await page.keyboard.press("6"); await page.waitForTimeout(800);
const events = [];
s.on("Tracing.dataCollected", (e) => events.push(...e.value));
await s.send("Tracing.start", { categories: "devtools.timeline,toplevel,blink", options: "" });
await page.keyboard.press("Backspace"); await page.waitForTimeout(800);
const done = new Promise((r) => s.once("Tracing.tracingComplete", r));
await s.send("Tracing.end"); await done;
const by = {};
for (const e of events) if (e.ph === "X" && e.dur) { const k = e.name; (by[k] ??= [0, 0, 0]); by[k][0] += e.dur; by[k][1]++; by[k][2] = Math.max(by[k][2], e.dur); }
for (const [k, v] of Object.entries(by).sort((a, b) => b[1][0] - a[1][0]).slice(0, 28)) console.log(k.padEnd(50), (v[0] / 1000).toFixed(1), "ms total", v[1], "max", (v[2] / 1000).toFixed(1));
await b.close();
const main = events.filter((e) => e.ph === "X" && e.dur).sort((a, b) => a.ts - b.ts);
const big = main.filter((e) => e.name === "ThreadControllerImpl::RunTask" && e.dur > 15000);
for (const t of big) {
  console.log("TASK", (t.dur / 1000).toFixed(1));
  const inside = main.filter((e) => e.tid === t.tid && e.ts >= t.ts && e.ts + e.dur <= t.ts + t.dur && e !== t && e.dur > 2500);
  const stack = [];
  for (const e of inside) { while (stack.length && stack.at(-1) < e.ts) stack.pop(); console.log("  ".repeat(stack.length + 1) + e.name, (e.dur / 1000).toFixed(1), e.args?.data?.type ?? ""); stack.push(e.ts + e.dur); }
}
