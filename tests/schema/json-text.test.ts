import { describe, expect, it } from "vitest";

import { InputError } from "../../src/errors.js";
import { readJsonText } from "../../src/schema/json-text.js";

function refusal(text: string): InputError {
  try {
    readJsonText(text, "session.json");
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("was read without complaint");
}

describe("A session's text", () => {
  it.each([
    ["a comma too many", '{\n  "a": 1,\n}', "session.json, line 3, column 1", /"\}"/],
    ["a comma missing", '{\n  "a": 1\n  "b": 2\n}', "session.json, line 3, column 3", /not valid JSON/],
    ["a comment", '{\n  // mine\n  "a": 1\n}', "session.json, line 2, column 3", /not valid JSON/],
    ["a text without quotation marks", '{ "a": mains }', "session.json, line 1, column 8", /"?m'?/],
    [
      "a missing end, its last character",
      '{ "a": [1, 2',
      "session.json, line 1, column 12",
      /does not end with its closing "\}"/,
    ],
    ["nothing in it", " \n", "session.json, line 1, column 1", /is empty/],
  ])("with %s says line and column", (_, text, where, message) => {
    const error = refusal(text);
    expect(error.where).toBe(where);
    expect(error.message).toMatch(message);
  });

  it("with a key twice in one object is refused, for one of the two would be lost", () => {
    const error = refusal('{\n  "file": "a.wav",\n  "take": 1,\n  "file": "b.wav"\n}');
    expect(error.message).toBe('The key "file" stands twice in one object.');
    expect(error.where).toBe("session.json, line 4");
  });

  it("may begin with a byte order mark", () => {
    expect(readJsonText('\uFEFF{ "a": 1 }', "x").value).toEqual({ a: 1 });
  });

  it("knows the line of each value, and of what is around a value that is missing", () => {
    const document = readJsonText('{\n  "list": [\n    1,\n    { "a": 1,\n      "b": 2 }\n  ]\n}', "x");
    expect(document.lineOf(["list", 0])).toBe(3);
    expect(document.lineOf(["list", 1, "b"])).toBe(5);
    expect(document.lineOf(["list", 1, "c"])).toBe(4);
    expect(document.lineOf([])).toBe(1);
  });

  it("nested a hundred thousand deep is an error or a value, never a crash", () => {
    const text = "[".repeat(100_000) + "]".repeat(100_000);
    try {
      expect(readJsonText(text, "x").lineOf([0])).toBeNull();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
    }
  });
});
