// The growers' questions on water outdoors, asked on the page.
import { askAll } from "../support/water-questions.mjs";

askAll("outdoors", 9);
