// The phone, its morning, the slow line and the slow processor, for a page and for every worker it starts.
import { setDay } from "../support/visit.mjs";

const BYTES_PER_KILOBIT = 1000 / 8;
/** The usual profile of a slow mobile line: 150 ms, 1,638 kbit/s down, 750 kbit/s up. */
const SLOW_LINE = {
  offline: false,
  latency: 150,
  downloadThroughput: 1638 * BYTES_PER_KILOBIT,
  uploadThroughput: 750 * BYTES_PER_KILOBIT,
};

/** How many times slower than this machine the processor of a first visit is. */
export const SLOW_PROCESSOR = 4;
/** How many times slower it is while numbers are typed. */
export const SLOWER_PROCESSOR = 6;

export const PHONE = { width: 390, height: 844 };

/** What is measured must not hang on the day of measuring: in winter no pest lives, and the search for the fewest treatments is away. */
export const MORNING = "2026-07-14T07:40:00";

/** A profile that has nothing cached, on `day`. */
export async function phone(browser, day = MORNING) {
  const context = await browser.newContext({ viewport: PHONE, locale: "en-GB" });
  await setDay(context, day);
  return context;
}

/** The processor of `session`'s page becomes `times` slower than this machine. */
export function slowProcessor(session, times) {
  return session.send("Emulation.setCPUThrottlingRate", { rate: times });
}

/**
 * Puts `session`'s page and each of its workers on the slow line and tells `heard(request, from)` of every request.
 *
 * The browser slows each target by itself: a worker that is not told so would fill its cache over the whole machine's
 * line. A worker therefore waits at its start until it has been told. Its processor cannot be slowed.
 */
export async function slowLine(session, heard) {
  session.on("Network.requestWillBeSent", (params) => heard(params, "page"));
  session.on("Target.attachedToTarget", ({ sessionId }) => {
    let id = 0;
    const tell = (method, params = {}) => {
      id += 1;
      const message = JSON.stringify({ id, method, params });
      return session.send("Target.sendMessageToTarget", { sessionId, message });
    };
    Promise.all([
      tell("Network.enable"),
      tell("Network.emulateNetworkConditions", SLOW_LINE),
      tell("Runtime.runIfWaitingForDebugger"),
    ]).catch((error) => {
      // A visit may end while its worker starts.
      if (!/closed|No session/.test(error.message)) throw error;
    });
  });
  session.on("Target.receivedMessageFromTarget", ({ message }) => {
    const { method, params } = JSON.parse(message);
    if (method === "Network.requestWillBeSent") heard(params, "worker");
  });
  await session.send("Network.enable");
  await session.send("Network.emulateNetworkConditions", SLOW_LINE);
  // Workers are reached through the page's own session, which only this older form of attaching allows.
  await session.send("Target.setAutoAttach", { autoAttach: true, waitForDebuggerOnStart: true, flatten: false });
}
