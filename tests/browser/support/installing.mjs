// What a browser that can install the page does, and what a device says of itself.

/** A phone whose browser installs by hand only, as its user agent tells. */
export const BY_HAND_PHONE = {
  userAgent:
    "Mozilla/5.0 (iPhone; CPU iPhone OS 18_5 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Mobile/15E148 Safari/604.1",
  hasTouch: true,
};

/** A tablet of the same family: it says that it is a desktop, and has fingers on it. */
export const BY_HAND_TABLET = {
  userAgent: "Mozilla/5.0 (Macintosh; Intel Mac OS X 10_15_7) AppleWebKit/605.1.15 (KHTML, like Gecko) Version/18.5 Safari/605.1.15",
  hasTouch: true,
};

/** The desktop of that family. */
export const BY_HAND_DESKTOP = { userAgent: BY_HAND_TABLET.userAgent, hasTouch: false };

/** Tells the page that it can be installed, as Chromium does of its own accord after a while. */
export function offerToInstall(page) {
  return page.evaluate(() => {
    const event = new Event("beforeinstallprompt", { cancelable: true });
    window.firstTrussPrompts = window.firstTrussPrompts ?? 0;
    event.prompt = async () => {
      window.firstTrussPrompts += 1;
    };
    window.dispatchEvent(event);
    return event.defaultPrevented;
  });
}

/** How often the browser's own dialogue was asked for. */
export function prompts(page) {
  return page.evaluate(() => window.firstTrussPrompts ?? 0);
}
