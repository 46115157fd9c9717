// The growers' questions on water after several days, asked on the page.
import { askAll } from "../support/water-questions.mjs";

askAll("days", 6);
