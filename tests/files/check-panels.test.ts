import { expect, it } from "vitest";
import { InputError } from "../../src/errors.js";
import { checkPanels } from "../../src/files/check-panels.js";
import { readJsonText } from "../../src/schema/json-text.js";
import { sessionSchema, type SessionText } from "../../src/schema/session.js";

const panel = { id: "window", centreM: [0, 2.25, 1.5], normal: [1, 0, 0], widthM: 1.6, heightM: 1 } as const;
const room = { lengthM: 6, widthM: 4.5, heightM: 2.8 };

function refusalOf(change: object, inRoom: SessionText["room"] = room): string | null {
  const text = {
    ...{ schema: "carrywell/session/1", room: inRoom, sweep: "sweep.json", panels: [{ ...panel, ...change }] },
    monitors: [{ id: "mains", role: "main" }],
    positions: [{ id: "mix", kind: "mix" }],
    recordings: [{ file: "one.wav", monitor: "mains", position: "mix" }],
  };
  try {
    checkPanels(sessionSchema.parse(text), readJsonText(JSON.stringify(text, null, 1), "session.json"));
  } catch (error) {
    if (error instanceof InputError) return `${error.message} ${error.where} ${error.remedy}`;
    throw error;
  }
  return null;
}

it("A window in the front wall and a screen as wide as the room is long are taken", () => {
  expect(refusalOf({})).toBeNull();
  expect(refusalOf({ widthM: 6 })).toBeNull();
});

it("A panel by the name of a wall, floor or ceiling is refused: its reflections would be taken for theirs", () => {
  for (const id of ["floor", "ceiling", "left", "right", "front", "rear", "Floor"]) {
    expect(refusalOf({ id })).toMatch(/has the name of the .*panels\[0\]\.id/);
  }
  expect(refusalOf({ id: "constructor" })).toBeNull();
});

it("A panel that looks nowhere is refused", () => {
  expect(refusalOf({ normal: [0, 0, 0] })).toMatch(/panels\[0\]\.normal/);
});

it("A panel larger than the room is refused, and asked whether it was measured in centimetres", () => {
  expect(refusalOf({ widthM: 160 })).toMatch(/160 m wide.*longer than 6 m.*panels\[0\]\.widthM.*not centimetres/);
  expect(refusalOf({ heightM: 6.1 })).toMatch(/panels\[0\]\.heightM/);
  expect(refusalOf({ widthM: 19 }, {})).toBeNull();
  expect(refusalOf({ widthM: 160 }, {})).toMatch(/no more than 20 m.*not centimetres/);
});
