import { readFileSync } from "node:fs";

import { describe, expect, it } from "vitest";

import { InputError } from "../../src/errors.js";
import { sessionSchema } from "../../src/schema/session.js";
import { classLevelDb } from "../../src/standards/playback-classes/playback-class.js";
import { readClassFile } from "../../src/translation/read-class-file.js";

const stated = { id: "kitchen", name: "kitchen radio", file: "kitchen.csv", mono: true };
const octaves = [125, 250, 500, 1000, 2000, 4000, 8000];

function read(text: string): ReturnType<typeof readClassFile> {
  return readClassFile(new TextEncoder().encode(text), stated);
}

/** A table of octaves, some of its rows replaced. */
function table(
  replaced: Readonly<Record<number, string>> = {},
  header = "frequency Hz,low dB,typical dB,high dB",
): string {
  return [header, ...octaves.map((hz) => replaced[hz] ?? `${hz},-3.5,0.0,2.5`)].join("\n");
}

function refusal(text: string): InputError {
  try {
    read(text);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("was read without complaint");
}

describe("A playback class of one's own", () => {
  it("holds what its table and the session state, and says so", () => {
    expect(read(table())).toEqual({
      ...{ id: "kitchen", name: "kitchen radio", loses: null, mono: true },
      ...{ label: "stated in the session", source: "kitchen.csv" },
      levelDba: { typical: null, noise: null, source: "stated in the session" },
      envelope: octaves.map((hz) => [hz, -3.5, 0, 2.5]),
    });
    const { levelDba, loses } = readClassFile(new TextEncoder().encode(table()), {
      ...stated,
      ...{ levelDba: 62, noiseDba: 48, loses: "the bass" },
    });
    expect([levelDba.typical, levelDba.noise, loses]).toEqual([62, 48, "the bass"]);
  });

  it.each([
    ["semicolons and decimal commas", table().replaceAll(",", ";").replaceAll(".", ",")],
    ["tabs", table().replaceAll(",", "\t")],
    ["no header", table().split("\n").slice(1).join("\n")],
    ["a header in another language", table({}, "Frequenz [Hz],schlecht,gewöhnlich,gut")],
    ["comments and blank lines", `# the radio on the shelf\n\n${table()}\n\n`],
  ])("is read with %s", (_, text) => {
    expect(read(text).envelope).toEqual(read(table()).envelope);
  });

  it("is straight over log frequency between its rows, and not known outside them", () => {
    const kitchen = read(table({ 125: "125,-30.0,-20,-10" }));
    // Half the way from 125 to 250 Hz over log frequency: one rounding of a logarithm.
    expect(classLevelDb(kitchen, 125 * Math.SQRT2, "typical")).toBeCloseTo(-10, 12);
    expect(classLevelDb(kitchen, 100, "typical")).toBeNull();
    expect(classLevelDb(kitchen, 8001, "high")).toBeNull();
  });

  it("may be written as the README shows it", () => {
    const page = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
    const [example] = /^ {4}frequency Hz,low dB.*(\n {4}\d.*)+/m.exec(page)!;
    const { envelope } = read(example.replaceAll(/^ {4}/gm, ""));
    expect(envelope[0]).toEqual([63, -40, -30.5, -20]);
    expect(envelope).toHaveLength(8);
    const [entry] = /"playbackClasses": \[[^\]]*\]/.exec(page)!;
    expect(
      sessionSchema.shape.playbackClasses.parse(
        (JSON.parse(`{${entry}}`) as { playbackClasses: unknown }).playbackClasses,
      ),
    ).toHaveLength(1);
  });

  it("may be one device, whose three members are the same", () => {
    expect(read(octaves.map((hz) => `${hz};-1;-1;-1`).join("\n")).envelope[0]).toEqual([125, -1, -1, -1]);
  });
});

describe("A playback class that cannot be used is refused at the place:", () => {
  it.each<[string, string, number, number, RegExp]>([
    ["an empty cell", table({ 500: "500,-3.5,,2.5" }), 4, 10, /A number is missing/],
    ["a word for a number", table({ 500: "500,-3.5,loud,2.5" }), 4, 10, /"loud" is not a number/],
    ["a missing column", table({ 500: "500,-3.5,2.5" }), 4, 10, /3 column\(s\); frequency, low, typical and high/],
    ["a column too many", table({ 500: "500,-3.5,0,2.5,7" }), 4, 16, /5 column/],
    ["frequencies that fall", table({ 500: "200,-3.5,0,2.5" }), 4, 1, /does not rise above 250 Hz/],
    ["a frequency twice", table({ 500: "250,-3.5,0,2.5" }), 4, 1, /repeats/],
    ["a frequency that is none", table({ 125: "-125,-3.5,0,2.5" }), 2, 1, /not above 0/],
    [
      "a poor member above the ordinary",
      table({ 500: "500,1,0,2.5" }),
      4,
      5,
      /poor member \(1 dB\).*ordinary one \(0 dB\)/,
    ],
    ["an ordinary member above the good", table({ 500: "500,-3,3,2.5" }), 4, 8, /ordinary member \(3 dB\).*good one/],
    ["a step of two octaves", table().replace(/500,.*\n/, ""), 4, 1, /From 250 Hz to 1000 Hz is more than an octave/],
    ["a step of two octaves where nothing is aligned", table({ 8000: "16000,-9.5,0,2" }), 8, 1, /4000 Hz to 16000 Hz/],
    ["a beginning above 200 Hz", table().replace(/125,.*\n/, ""), 2, 1, /from 250 Hz to 8000 Hz.*200 Hz to 4 kHz/],
    ["an end below 4 kHz", `${table().replace(/\n4000[^]*/, "")}\n3150,-3,0,2`, 7, 1, /from 125 Hz to 3150 Hz/],
    ["two rows", "125,-3.5,0,2.5\n250,-3.5,0,2.5", 1, 1, /2 row\(s\); at least 6/],
    ["no rows", "frequency Hz,low dB,typical dB,high dB", 1, 1, /0 row\(s\)/],
    ["nothing at all", "", 1, 1, /0 row\(s\)/],
    ["high where low is read", table({}, "Hz,high,typical,low"), 1, 4, /"high" stands where low is read/],
    ["a column in kHz", table({}, "kHz,low,typical,high"), 1, 1, /not in Hz/],
    ["words in the first row", table({ 125: "low end,-3.5,0,2.5" }), 2, 1, /"low end" stands where frequency/],
    ["a level that is no deviation", table({ 500: "500,-350,0,2.5" }), 4, 5, /-350 dB is no deviation/],
    ["commas that may be either", octaves.map((hz) => `${hz},-3,0,2`).join("\n"), 1, 1, /a comma may be either/],
  ])("%s", (_, text, line, column, says) => {
    const { message, where, remedy } = refusal(text);
    expect(message).toMatch(says);
    expect(where).toBe(`kitchen.csv, line ${line}, column ${column}`);
    expect(remedy).toContain("steps of an octave or less");
  });
});
