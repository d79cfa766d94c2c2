import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { calibrationAt } from "../../src/recording/calibration-at.js";
import { parseMicrophoneCalibration } from "../../src/recording/microphone-calibration.js";
import { inputErrorOf } from "./thrown-by.js";
import { ascii } from "./wav-file.js";

const parse = (text: string): { frequencyHz: readonly number[]; levelDb: readonly number[] } =>
  parseMicrophoneCalibration(new TextEncoder().encode(text), "mic.txt");
const refusal = (text: string): string => {
  const error = inputErrorOf(() => parse(text));
  return `${error.where}: ${error.message}`;
};

const folder = new URL("../../../shared/data/mic-calibration/", import.meta.url);
const dialects = new URL("dialects/", folder);
const names = existsSync(dialects) ? readdirSync(dialects) : [];

describe("tables in the dialects seen in the wild", () => {
  if (names.length === 0) it.skip("not run: microphone tables in ../shared/data/mic-calibration are absent");

  it.each(names.filter((name) => !name.startsWith("bad_")))("%s reads as the 0 degree table", (name) => {
    const truth = parseMicrophoneCalibration(readFileSync(new URL("condenser_mic_0deg.txt", folder)), "0.txt");
    const table = parseMicrophoneCalibration(readFileSync(new URL(name, dialects)), name);
    // The rewrites leave out the original's last row, at 21 kHz, which jumps back to 0.
    expect(truth.frequencyHz.at(-1)).toBe(21_000);
    expect(table.frequencyHz).toEqual(truth.frequencyHz.slice(0, -1));
    // Half the last digit printed: one decimal in this file, three or more in the others, as in the original.
    const decimals = name === "star_then_blank_line.txt" ? 1 : 3;
    for (const [n, level] of table.levelDb.entries()) {
      const tolerance = decimals === 1 ? 0.05 + 1e-12 : 0;
      expect(Math.abs(level - truth.levelDb[n]!)).toBeLessThanOrEqual(tolerance);
    }
  });

  // Line and column of each defect, found by eye.
  const defects: [string, number, number][] = [
    ["bad_cr_only_line_ends.txt", 1, 10],
    ["bad_double_minus.txt", 2, 6],
    ["bad_html_instead_of_table.txt", 1, 1],
    ["bad_letter_in_number.txt", 34, 7],
    ["bad_unsorted_rows.txt", 3, 1],
  ];
  it.runIf(names.length > 0)("every defective file is among those tried here", () => {
    expect(names.filter((name) => name.startsWith("bad_")).sort()).toEqual(defects.map(([name]) => name));
  });
  it.runIf(names.length > 0).each(defects)("%s is refused at line %i, column %i", (name, line, column) => {
    const error = inputErrorOf(() => parseMicrophoneCalibration(readFileSync(new URL(name, dialects)), name));
    expect(error.where).toBe(`${name}, line ${line}, column ${column}`);
  });

  it.runIf(names.length > 0)("the 90 degree table, with its exact zeros and blank last lines, is read whole", () => {
    const table = parseMicrophoneCalibration(readFileSync(new URL("condenser_mic_90deg.txt", folder)), "90.txt");
    expect(table.frequencyHz.length).toBe(33);
    expect(table.levelDb.slice(0, 12)).toEqual(new Array(12).fill(0));
  });
});

describe("ways to write the same table", () => {
  const same = { frequencyHz: [20, 31.5, 16_000], levelDb: [-0.7, 0.2, -3] };
  it.each([
    ["spaces", "20 -0.7\n31.5 0.2\n16000 -3"],
    ["tabs, phase and a header", "Freq\tLevel\tPhase\n20\t-0.7\t1\n31.5\t0.2\t-2.5\n16000\t-3\t180\n"],
    ["commas and CRLF", "frequency,dB\r\n20,-0.7\r\n31.5,0.2\r\n16000,-3\r\n\r\n\r\n"],
    ["comma and space", "20, -0.7\n31.5, 0.2\n16000, -3\n"],
    ["commas with phase", "20,-0.7,0\n31.5,0.2,0\n16000,-3,0\n"],
    ["semicolons and decimal commas", "Frequenz; Pegel\n20; -0,7\n31,5; 0,2;\n16000; -3\n"],
    ["spaces and decimal commas", "20 -0,7\n31,5 +0,2\n16000 -3,0\n"],
    ["exponents and missing zeros", "2e1 -.7\n3.15E+01 .2\n1.6e4 -3.\n"],
    ["quotes around fields", '"Hz","dB"\n"20","-0.7"\n"31.5","0.2"\n"16000","-3"\n'],
    ["indented, separators at line ends", "   20\t-0.7\t\n   31.5\t0.2 \n\t16000\t-3\t\t\n"],
    [
      "comments of all kinds, among the rows too",
      "* a\n# b\n% c\n! d\n// e\n; f\n20 -0.7\n# 99 9\n31.5 0.2\n\n16000 -3\n*\n",
    ],
    ["a byte order mark", "\uFEFF20 -0.7\n31.5 0.2\n16000 -3\n"],
    [
      "words before the table, numbers within them",
      "Serial 1234 5678\nSensitivity = -38.5 dB at 1000\n20 -0.7\n31.5 0.2\n16000 -3",
    ],
  ])("%s", (_, text) => {
    expect(parse(text)).toMatchObject(same);
  });

  it("Latin-1 and UTF-16 text", () => {
    expect(parseMicrophoneCalibration(ascii("% f\xfcr Test, 0\xb0\n20 -0.7\n31.5 0.2\n16000 -3\n"), "a")).toMatchObject(
      same,
    );
    for (const little of [true, false]) {
      const text = "\uFEFFHz dB\r\n20\t-0.7\r\n31.5\t0.2\r\n16000\t-3\r\n";
      const view = new DataView(new ArrayBuffer(2 * text.length));
      for (let n = 0; n < text.length; n++) view.setUint16(2 * n, text.charCodeAt(n), little);
      expect(parseMicrophoneCalibration(new Uint8Array(view.buffer), "a")).toMatchObject(same);
    }
  });
});

describe("a table that could be misread is refused with line and column", () => {
  it.each([
    ["nothing at all", "", "line 1, column 1: The table has 0 row"],
    ["words only", "no table\nin here\n", "line 1, column 1: The table has 0 row"],
    ["one row", "1000 0\n", "line 1, column 1: The table has 1 row"],
    ["words after the table has begun", "20 0\n40 0\nend of table\n", 'line 3, column 1: "end" is not a number'],
    ["a damaged first row", "20 --1\n40 0\n80 0\n", 'line 1, column 4: "--1" is not a number'],
    ["a header that begins like a row", "0 degrees\n20 1\n200 1\n", 'line 1, column 3: "degrees" is not'],
    ["a level that is missing", "20 1\n40\n", "line 2, column 1: The row has 1 column"],
    ["an empty field", "20;1\n40;;0\n", "line 2, column 4: A number is missing"],
    ["four columns", "20 1 2 3\n", "line 1, column 1: The row has 4 column"],
    ["a column more than above", "20 1\n200 1 0\n", "line 2, column 7: The row has 3 column"],
    ["a frequency twice", "20 1\n20 2\n", "line 2, column 1: The frequency 20 Hz does not rise above 20 Hz"],
    ["a frequency of zero", "0 1\n20 2\n", "line 1, column 1: The frequency 0 Hz does not rise above 0 Hz"],
    ["a negative frequency", "  -20 1\n20 2\n", "line 1, column 3: The frequency -20 Hz"],
    ["thousands with a comma", "20 1\n1,000.0 2\n", 'line 2, column 1: "1,000.0" is not a number'],
    ["thousands with a comma alone", "200 1\n1,000 2\n", "line 2, column 1: The frequency 1 Hz does not rise"],
    ["a decimal comma among commas", "20,1,5\n200,2,5\n", "line 1, column 1: Commas part the columns"],
    ["decimal commas throughout, among commas", "20,0,1,5\n", "line 1, column 1: The row has 4 column"],
    ["a sound pressure level", "1000 94.0\n2000 94.1\n", "line 1, column 6: 94 dB is no microphone's"],
    ["kilohertz", "0.02 1\n1.0 0\n20 3\n", "line 1, column 1: The table ends at 20 Hz"],
    ["a value that overflows", "20 1\n1e999 1\n", 'line 2, column 1: "1e999" is not a number'],
    ["a web page", "\n<html>\n20 1\n200 1\n", 'line 2, column 1: "<html>" is not a number'],
    ["binary", "20 1\n\u0000\u0001\u0002\n", "line 2, column 1:"],
  ])("%s", (_, text, expected) => {
    expect(refusal(text)).toContain(`mic.txt, ${expected}`);
  });
});

describe("between the rows", () => {
  const table = { frequencyHz: [100, 1000, 10_000], levelDb: [-1, 0, 2] };
  it("the level is linear in the logarithm of frequency", () => {
    // sqrt(10) is half a decade; the tolerance is a few roundings of values near 1.
    expect(calibrationAt(table, 100 * Math.sqrt(10))).toBeCloseTo(-0.5, 14);
    expect(calibrationAt(table, 1000 * 10 ** 0.75)).toBeCloseTo(1.5, 14);
  });

  it("rows are met exactly, and held beyond the ends", () => {
    expect([1, 100, 1000, 10_000, 40_000].map((hz) => calibrationAt(table, hz))).toEqual([-1, -1, 0, 2, 2]);
    expect(calibrationAt({ frequencyHz: [1000], levelDb: [0.5] }, 20)).toBe(0.5);
  });

  it("a frequency that is not above 0 and an empty table are breaches", () => {
    for (const hz of [0, -1, NaN]) expect(() => calibrationAt(table, hz)).toThrow(RangeError);
    expect(() => calibrationAt({ frequencyHz: [], levelDb: [] }, 100)).toThrow(RangeError);
  });
});
