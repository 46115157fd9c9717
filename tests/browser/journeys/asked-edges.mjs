// The growers' questions on water at the edge of what can be, asked on the page.
import { askAll } from "../support/water-questions.mjs";

askAll("edges", 12);
