import { expect, it } from "vitest";
import { InputError } from "../../src/errors.js";
import { checkPlaces } from "../../src/files/check-places.js";
import { readJsonText } from "../../src/schema/json-text.js";
import { sessionSchema, type SessionText } from "../../src/schema/session.js";

const usual = {
  schema: "carrywell/session/1",
  room: { lengthM: 6, widthM: 4.5, heightM: 2.8 },
  sweep: "sweep.json",
  monitors: [{ id: "mains", role: "main", placement: { L: [0, 1.2, 1.3], R: [0, 3.3, 1.3] } }],
  positions: [{ id: "mix", kind: "mix", xyzM: [2.5, 2.25, 1.2] }],
  panels: [{ id: "window", centreM: [0, 2.25, 1.5], normal: [1, 0, 0], widthM: 1.6, heightM: 1 }],
  recordings: [{ file: "one.wav", monitor: "mains", position: "mix" }],
} satisfies SessionText;

function refusalOf(change: Partial<SessionText>): { message: string; where: string | undefined } | null {
  const text = { ...usual, ...change };
  try {
    checkPlaces(sessionSchema.parse(text), readJsonText(JSON.stringify(text, null, 1), "session.json"));
  } catch (error) {
    if (error instanceof InputError) return { message: error.message, where: error.where };
    throw error;
  }
  return null;
}

it("Loudspeakers in the wall's face, a window in the wall and a microphone between them are taken", () => {
  expect(refusalOf({})).toBeNull();
});

it("A loudspeaker outside the room is refused by its field, in each direction", () => {
  const at = (L: [number, number, number]) =>
    refusalOf({ monitors: [{ id: "mains", role: "main", placement: { L } }] });
  expect(at([6.2, 1.2, 1.3])).toEqual({
    message: 'The left loudspeaker of "mains" stands outside the room: x is 6.2 m, its length 6 m.',
    where: expect.stringMatching(/^session\.json, line \d+, monitors\[0\]\.placement\.L\[0\]$/) as string,
  });
  expect(at([1, 4.6, 1.3])?.where).toMatch(/placement\.L\[1\]$/);
  expect(at([1, 1, -0.1])?.message).toMatch(/stands under the floor/);
});

it("A microphone in a wall is refused by its field, and so is one behind it", () => {
  const at = (xyzM: [number, number, number]) => refusalOf({ positions: [{ id: "mix", kind: "mix", xyzM }] });
  expect(at([0, 2, 1])?.where).toMatch(/positions\[0\]\.xyzM\[0\]$/);
  expect(at([2, 4.5, 1])?.where).toMatch(/positions\[0\]\.xyzM\[1\]$/);
  expect(at([6, 2, 1])?.message).toBe('The position "mix" stands in the rear wall: x is 6 m, as the room\'s length.');
  expect(at([2, 2, 3])?.message).toMatch(/z is 3 m, its height 2\.8 m/);
});

it("Without dimensions only what lies behind front wall, left wall and floor is known to be outside", () => {
  const far = { id: "mix", kind: "mix" as const, xyzM: [40, 30, 20] as [number, number, number] };
  expect(refusalOf({ room: undefined, positions: [far] })).toBeNull();
  expect(refusalOf({ room: undefined, positions: [{ ...far, xyzM: [40, -1, 20] }] })?.where).toMatch(/xyzM\[1\]$/);
});

it("A microphone in the loudspeaker is refused", () => {
  const inBox = { id: "mix", kind: "mix" as const, xyzM: [0.01, 1.2, 1.3] as [number, number, number] };
  expect(refusalOf({ positions: [inBox] })?.message).toMatch(/one and the same place/);
});

it("Two loudspeakers in one place are refused, and side by side they are taken", () => {
  const at = (R: [number, number, number]) =>
    refusalOf({ monitors: [{ id: "mains", role: "main", placement: { L: [1, 1.2, 1.3], R } }] });
  expect(at([1, 1.2, 1.3])).toEqual({
    message: 'The left and the right loudspeaker of "mains" are at one and the same place.',
    where: expect.stringMatching(/monitors\[0\]\.placement\.R$/) as string,
  });
  expect(at([1, 1.4, 1.3])).toBeNull();
});
