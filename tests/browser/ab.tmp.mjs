import { chromium } from "playwright-core";
const url = process.argv[2], rate = 6;
const variants = {
  none: "",
  //cv: ".leaves > .sec, .leaves > .more { content-visibility: auto; contain-intrinsic-block-size: auto 30rem; overflow-clip-margin: 8px }",
  // ".desk > *, .leaves > * { content-visibility: auto; contain-intrinsic-block-size: auto 20rem; overflow-clip-margin: 8px }",
  // ".sec, .more, .plate, .foot, .step, .key, .dose { contain: layout style }",
  // ".cordon { display: none }",
  nosvg: "svg { display: none !important }",
};
const b = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ["--no-sandbox", "--disable-gpu"] });
const results = {}, parts = {}, detail = {};
for (let round = 0; round < 3; round++) for (const [name, css] of Object.entries(variants)) {
  const c = await b.newContext({ viewport: { width: 390, height: 844 }, bypassCSP: true });
  const page = await c.newPage();
  const s = await c.newCDPSession(page);
  await page.goto(url, { waitUntil: "networkidle" });
  await page.waitForSelector("#answer-dose");
  if (css) await page.evaluate((css) => { const p = trustedTypes?.createPolicy?.("x" , {createHTML:(x)=>x}); const e = document.createElement("style"); e.textContent = css; document.head.append(e); }, css);
  await page.evaluate(() => { const f = document.querySelector('[name="height"]'); f.scrollIntoView({ block: "center" }); f.focus(); });
  await page.waitForTimeout(400);
  const events = []; s.on("Tracing.dataCollected", (e) => events.push(...e.value));
  await s.send("Tracing.start", { categories: "devtools.timeline,toplevel", options: "" });
  for (const k of ["1", "6", "1", "7", "1", "8"]) for (const p of [k, "Backspace"]) { await page.keyboard.press(p); await page.waitForTimeout(300); }
  const done = new Promise((r) => s.once("Tracing.tracingComplete", r)); await s.send("Tracing.end"); await done;
  const keys = events.filter((e) => e.name === "EventDispatch" && e.args?.data?.type === "keydown");
  for (const k of keys) {
    const tops = events.filter((e) => e.ph === "X" && e.tid === k.tid && e.pid === k.pid && e.name === "ThreadControllerImpl::RunTask");
    const first = tops.filter((e) => e.ts <= k.ts && e.ts + e.dur >= k.ts)[0];
    // the key's task, and the first frame after it
    const frame = tops.filter((e) => e.ts > first.ts).find((t) => events.some((e) => e.tid === k.tid && e.pid === k.pid && e.name === "Paint" && e.ts >= t.ts && e.ts <= t.ts + t.dur));
    const between = tops.filter((e) => e.ts >= first.ts && e.ts <= (frame?.ts ?? first.ts));
    (results[name] ??= []).push(between.reduce((a, e) => a + (e.tdur ?? 0), 0) / 1000);
    const names = {};
    for (const e of events) if (e.ph === "X" && e.tdur && e.tid === k.tid && e.pid === k.pid && e.ts >= first.ts && e.ts <= (frame ? frame.ts + frame.dur : first.ts + first.dur)) names[e.name] = (names[e.name] ?? 0) + e.tdur / 1000;
    (detail[name] ??= []).push(names);
    (parts[name] ??= []).push([first.tdur / 1000, (frame?.tdur ?? 0) / 1000]);
  }
  await c.close();
}
for (const [n, t] of Object.entries(results)) { t.sort((a, b) => a - b); console.log(n.padEnd(10), "median", t[t.length >> 1].toFixed(1), "p95", t[Math.floor(t.length * .95)].toFixed(1), "min", t[0].toFixed(1), "task/frame medians", ...[0,1].map((i)=>parts[n].map((x)=>x[i]).sort((a,b)=>a-b)[t.length>>1].toFixed(1))); }
for (const [n, d] of Object.entries(detail)) { const sum = {}; for (const x of d) for (const [k, v] of Object.entries(x)) sum[k] = (sum[k] ?? 0) + v / d.length; console.log(n, Object.entries(sum).sort((a, b) => b[1] - a[1]).slice(0, 18).map(([k, v]) => k + " " + v.toFixed(2)).join("; ")); }
await b.close();
