// A calendar file with random texts, which the task runner wrote with the program's own code, read by another program.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";

import ICAL from "ical.js";

import { required } from "../support/browser.mjs";

const { seed, texts, file } = JSON.parse(readFileSync(required("FIRST_TRUSS_CALENDAR_TEXTS"), "utf8"));

test("200 random texts come back from a calendar file as they were", () => {
  assert.equal(texts.length, 200);
  const events = new ICAL.Component(ICAL.parse(file)).getAllSubcomponents("vevent");
  assert.equal(events.length, texts.length);
  events.forEach((component, number) => {
    const event = new ICAL.Event(component);
    const { uid, day, summary, description } = texts[number];
    const where = `text ${number} of seed ${seed}`;
    assert.equal(event.uid, `${uid}@first-truss.invalid`, where);
    assert.equal(event.startDate.toString(), day, where);
    // A property without a text reads as none.
    assert.equal(event.summary ?? "", summary, where);
    assert.equal(event.description ?? "", description, where);
    const alarms = component.getAllSubcomponents("valarm");
    assert.equal(alarms.length, number % 2 === 0 ? 1 : 0, where);
    for (const alarm of alarms) assert.equal(alarm.getFirstPropertyValue("description") ?? "", summary, where);
  });
  assert.equal(new Set(events.map((event) => event.getFirstPropertyValue("uid"))).size, texts.length);
});

test("no line of it is longer than 75 octets, and each ends with both marks", () => {
  assert.equal(file.match(/\n/g).length, file.match(/\r\n/g).length);
  for (const line of file.split("\r\n")) assert.ok(Buffer.byteLength(line) <= 75, `${line} of seed ${seed}`);
});

test("a text that is torn is noticed", () => {
  // One line's end lost its mark.
  const torn = file.replace("\\n", "n");
  const events = new ICAL.Component(ICAL.parse(torn)).getAllSubcomponents("vevent").map((event) => new ICAL.Event(event));
  const read = events.map((event) => [event.summary ?? "", event.description ?? ""]);
  assert.notDeepEqual(read, texts.map(({ summary, description }) => [summary, description]));
});
