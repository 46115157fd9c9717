// The growers' questions on the days to come and on water then, asked on the page.
import { askAll } from "../support/water-questions.mjs";

askAll("ahead", 9);
