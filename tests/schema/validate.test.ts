import { describe, expect, it } from "vitest";

import { InputError } from "../../src/errors.js";
import { readJsonText } from "../../src/schema/json-text.js";
import { sessionSchema } from "../../src/schema/session.js";
import { validate } from "../../src/schema/validate.js";

const usual = {
  schema: "carrywell/session/1",
  sweep: "sweep.json",
  monitors: [{ id: "mains", role: "main" }],
  positions: [{ id: "mix", kind: "mix" }],
  recordings: [{ file: "mains-mix.wav", monitor: "mains", position: "mix" }],
};

function refusal(changes: object): InputError {
  try {
    validate(sessionSchema, readJsonText(JSON.stringify({ ...usual, ...changes }, null, 2), "session.json"));
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("was read without complaint");
}

describe("A session", () => {
  it("gets its defaults: a first take of a sweep", () => {
    const { recordings } = validate(sessionSchema, readJsonText(JSON.stringify(usual), "session.json"));
    expect(recordings).toEqual([{ ...usual.recordings[0], take: 1, kind: "sweep" }]);
  });

  const cases: [string, object, RegExp, RegExp, RegExp][] = [
    ["an unknown key at the top", { rooom: {} }, /key "rooom"/, /line \d+, rooom$/, /did you mean "room"\?/],
    [
      "an unknown key deep inside",
      { environment: { temperature: 21 } },
      /key "temperature"/,
      /environment\.temperature$/,
      /did you mean "temperatureC"\?/,
    ],
    [
      "an unknown key in a list",
      { recordings: [{ ...usual.recordings[0], chanel: "L" }] },
      /key "chanel"/,
      /recordings\[0\]\.chanel$/,
      /did you mean "channel"\?/,
    ],
    [
      "an unknown key unlike any",
      { microphone: { colour: "black" } },
      /key "colour"/,
      /microphone\.colour$/,
      /use one of: name, calibration/,
    ],
    ["a key that is missing", { sweep: undefined }, /"sweep" is missing/, /sweep$/, /a text in quotation marks/],
    ["a misspelt key before the missing one", { sweep: undefined, sweeep: "a" }, /key "sweeep"/, /sweeep$/, /"sweep"/],
    ["a number for a text", { title: 3 }, /"title" is 3/, /title$/, /give a text in quotation marks/],
    ["a text for a number", { room: { lengthM: "6.1" } }, /"lengthM" is "6\.1"/, /room\.lengthM$/, /give a number/],
    ["an object for a list", { monitors: {} }, /"monitors" is an object/, /monitors$/, /a list in square brackets/],
    ["an empty list", { monitors: [] }, /"monitors" is an empty list/, /monitors$/, /at least one entry/],
    [
      "a role that does not exist",
      { monitors: [{ id: "mains", role: "nearfeild" }] },
      /"role" is "nearfeild"/,
      /monitors\[0\]\.role$/,
      /one of: main, .*did you mean "nearfield"\?/,
    ],
    [
      "a place with two numbers",
      { positions: [{ id: "mix", kind: "mix", xyzM: [1, 2] }] },
      /"xyzM" has 2 entries/,
      /positions\[0\]\.xyzM$/,
      /x, y, z in metres/,
    ],
    ["a negative length", { room: { lengthM: -6 } }, /"lengthM" is -6/, /room\.lengthM$/, /a number above 0/],
    [
      "more than all of the moisture",
      { environment: { relativeHumidityPercent: 140 } },
      /is 140/,
      /relativeHumidityPercent$/,
      /a number up to 100/,
    ],
    [
      "half a take",
      { recordings: [{ ...usual.recordings[0], take: 1.5 }] },
      /"take" is 1\.5/,
      /recordings\[0\]\.take$/,
      /a whole number/,
    ],
    [
      "an id with a hyphen",
      { monitors: [{ id: "big-mains", role: "main" }] },
      /"id" is "big-mains"/,
      /monitors\[0\]\.id$/,
      /letters, digits and underscores/,
    ],
    [
      "an id that is taken",
      { monitors: [{ id: "Neutral", role: "main" }] },
      /"id" is "Neutral"/,
      /monitors\[0\]\.id$/,
      /not "neutral"/,
    ],
    ["nothing for a number", { room: { lengthM: null } }, /"lengthM" is null/, /lengthM$/, /give a number/],
  ];

  it.each(cases)("with %s is refused by field, with what to give", (_, changes, message, where, remedy) => {
    const error = refusal(changes);
    expect(error.message).toMatch(message);
    expect(error.where).toMatch(/^session\.json, line \d+, /);
    expect(error.where).toMatch(where);
    expect(error.remedy).toMatch(remedy);
  });

  it("with several faults names one and counts the others", () => {
    expect(refusal({ title: 3, notes: 4, date: 5 }).message).toMatch(/\(2 more after that\)/);
  });
});
