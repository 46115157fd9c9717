// A journey with a host of its own, which ends with the journey.
import { Host } from "./host.mjs";
import { journey } from "./journey.mjs";
import { open } from "./visit.mjs";
import { Versions } from "../pages/versions.mjs";

/**
 * `folders` says which build is under which path; `steps` gets the host, the profile and a way to open
 * kept tabs; `prepare` sets the host up before.
 */
export function hostedJourney(name, folders, steps, prepare = () => {}) {
  journey(name, {}, async (context) => {
    const host = await new Host(await folders()).start();
    prepare(host);
    const visits = [];
    /** Opens a tab and waits until the page is kept. */
    const visit = async (fragment = "", path = "/") => {
      const opened = await open(context, fragment, host.address(path));
      const tab = { ...opened, versions: new Versions(opened.page) };
      await tab.versions.kept();
      visits.push(tab);
      return tab;
    };
    try {
      await steps({ host, context, visit });
      for (const { watched } of visits) watched.assertClean();
    } finally {
      await host.stop();
    }
  });
}
