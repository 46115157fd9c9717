// Plot 14 at Marlpit Lane on a July morning, as a notebook that is kept: two groups, a butt, a feed, and two treatments against whitefly.
import { checksum } from "./indexed-png.mjs";

/** The morning it is opened on. */
export const DEMO_DAY = "2026-07-09T07:40:00";

/** What each day was like, and what a plant of either group got, litres, with how the compost of the first felt. */
const DAYS = [
  ["2026-06-25", "bright", 1.14, 0.85, "moist"],
  ["2026-06-26", "clear", 1.42, 1.14, "moist"],
  ["2026-06-27", "clear", 1.56, 1.14, "dry"],
  ["2026-06-28", "bright", 1.42, 0.85, "moist"],
  ["2026-06-29", "dull", 0.71, 0.43, "moist"],
  ["2026-06-30", "dark", 0.43, 0, "sodden"],
  ["2026-07-01", "mixed", 0.99, 0.71, "moist"],
  ["2026-07-02", "bright", 1.28, 0.85, "moist"],
  ["2026-07-03", "bright", 1.42, 1.14, "moist"],
  ["2026-07-04", "clear", 1.56, 1.14, "moist"],
  ["2026-07-05", "clear", 0, 0, "dry"],
  ["2026-07-06", "bright", 1.7, 1.28, "dry"],
  ["2026-07-07", "mixed", 1.14, 0.85, "moist"],
  ["2026-07-08", "bright", 1.28, 0.85, "moist"],
];

const dayPage = ([day, sky, first, second, feel]) =>
  ["page day", `id=${day}`, `sky=${sky}`, ...(first > 0 ? ["at=7.50"] : []), `given0=${first}`, `feel0=${feel}`, `given1=${second}`].concat(
    day === "2026-07-06" ? ["fed0=1.14"] : [],
  );

/** Lines of the notebook. `morning` are those of this morning, `first` further ones of the first group. */
function pages({ morning = ["sky=bright"], first = ["feel=moist"], days = DAYS }) {
  return [
    "page", "plot-name=Marlpit Lane", "plot-number=14", "butt-size=44", "butt-level=28", "roof=60", "butt-read=2026-07-08",
    "feeds-a-week=2", "morning=2026-07-09", ...morning, "after=nothing",
    "page", "id=0", "name=Glasshouse", "plants=12", "height=5", "trusses=4", "looked=2026-07-07", "planted=2026-05-09", "planted-held=2026-05-09", "stage=picking", ...first,
    "page", "id=1", "name=Outdoors", "plants=6", "height=3.5", "trusses=2", "outdoors=usual", "container=pot", "looked=2026-07-07", "planted=2026-05-30", "planted-held=2026-05-30",
    ...days.flatMap(dayPage),
    "page feed", "id=0", "feed-label=5-2-9", "feed-dose=20 ml per gallon", "feed-country=uk",
    "page pest", "id=1782891600000", "control=contact-spray", "label-of=contact-spray", "names-crop=yes", "names-place=yes", "for-home=yes",
    "least-days=5", "most-uses=4", "days-before-picking=3", "done2026-07-01=contact-spray", "done2026-07-06=contact-spray", "counted2026-07-06=12",
  ];
}

/** The notebook as the browser keeps it; `changed` as for `pages`. */
export function demoNotebook(changed = {}) {
  const revision = "revision 40";
  const body = pages(changed).map((line) => `${line}\n`).join("");
  const check = checksum(Buffer.from(revision + body)).toString(16).padStart(8, "0");
  return `first-truss 1\n${revision}\ncheck ${check}\n${body}`;
}
