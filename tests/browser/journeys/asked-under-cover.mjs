// The growers' questions on water under cover, asked on the page.
import { askAll } from "../support/water-questions.mjs";

askAll("under_cover", 27);
