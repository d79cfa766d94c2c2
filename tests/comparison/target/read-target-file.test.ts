import { describe, expect, it } from "vitest";
import { readTargetFile } from "../../../src/comparison/target/read-target-file.js";
import { targetLevel } from "../../../src/comparison/target/target.js";
import { InputError } from "../../../src/errors.js";
import { limitsAt } from "../../../src/standards/limit-mask.js";
import { seededRandom } from "../../recording/seeded-random.js";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const read = (text: string | Uint8Array): ReturnType<typeof readTargetFile> =>
  readTargetFile(typeof text === "string" ? bytes(text) : text, "mine.csv", "mine");

function refusal(text: string | Uint8Array): InputError {
  try {
    read(text);
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
  throw new Error("was read without complaint");
}

describe("A target of one's own", () => {
  const points = [
    { frequencyHz: 31.5, levelDb: 2.5 },
    { frequencyHz: 1000, levelDb: 0 },
    { frequencyHz: 16_000, levelDb: -2 },
  ];
  const utf16 = (text: string): Uint8Array => new Uint8Array(Buffer.from(`\ufeff${text}`, "utf16le"));
  it.each<[string, string | Uint8Array]>([
    ["commas and points", "31.5,2.5\n1000,0\n16000,-2\n"],
    ["semicolons and decimal commas", "31,5;2,5\n1000;0\n16000;-2\n"],
    ["tabs and decimal commas", "31,5\t2,5\n1000\t0\n16000\t-2\n"],
    ["a byte order mark and CRLF", "\ufeff31.5,2.5\r\n1000,0\r\n16000,-2\r\n"],
    ["UTF-16", utf16("31.5;2.5\r\n1000;0\r\n16000;-2\r\n")],
    ["a header with units", "Frequency (Hz),Level (dB)\n31.5,2.5\n1000,0\n16000,-2"],
    ["a header in another language", "Frequenz [Hz];Pegel [dB]\n31,5;2,5\n1000;0\n16000;-2"],
    ["a header in Latin-1", new Uint8Array(Buffer.from("Hz;Höhe\n31,5;2,5\n1000;0\n16000;-2", "latin1"))],
    ["words, comments and blank lines", "for the back room\n# Hz, dB\n\n31.5,2.5\n// here\n1000,0\n;;\n16000,-2\n\n"],
    ["quotes as a spreadsheet writes them", '"Hz","dB"\n"31,5","2,5"\n"1000","0"\n"16000","-2"\n'],
    ["blanks around the fields", " 31.5 , 2.5 \n 1000 , 0 \n 16000 , -2 \n"],
    ["empty columns behind", "31.5;2.5;;;;\n1000;0;;;;\n16000;-2;;;;\n"],
  ])("is read with %s", (_, text) => {
    const target = read(text);
    expect(target.points).toEqual(points);
    expect([target.id, target.source]).toEqual(["mine", "mine.csv"]);
    expect(target.limits.every(({ lower, upper }) => lower === null && upper === null)).toBe(true);
  });

  it("is straight over log frequency between its points and unknown outside", () => {
    const target = read("100,0\n10000,4\n");
    expect(targetLevel(target, 100)).toBe(0);
    expect(targetLevel(target, 10_000)).toBe(4);
    // 1 kHz is half the way: one rounding of a logarithm.
    expect(targetLevel(target, 1000)).toBeCloseTo(2, 12);
    expect([targetLevel(target, 99), targetLevel(target, 10_001)]).toEqual([null, null]);
  });

  it("has limits where its rows have them, and between two rows that both do", () => {
    const { limits } = read("Hz,dB,lower,upper\n20,0,,6\n100,0,-4,2\n1000,0,-2,2\n4000,0,,3\n10000,0,-5,\n");
    expect(limitsAt(limits, 20)).toEqual({ lower: null, upper: 6 });
    expect(limitsAt(limits, 50).lower).toBeNull();
    expect(limitsAt(limits, 100)).toEqual({ lower: -4, upper: 2 });
    // Half the way from 100 Hz to 1 kHz.
    expect(limitsAt(limits, Math.sqrt(100 * 1000)).lower).toBeCloseTo(-3, 12);
    expect(limitsAt(limits, 2000)).toMatchObject({ lower: null });
    expect(limitsAt(limits, 2000).upper).toBeCloseTo(2.5, 12);
    expect(limitsAt(limits, 10_000)).toEqual({ lower: -5, upper: null });
    expect(limitsAt(limits, 8000)).toEqual({ lower: null, upper: null });
    expect(limitsAt(limits, 12_000)).toEqual({ lower: null, upper: null });
  });

  it("may be in sound pressure levels: its height is fitted", () => {
    expect(read("20,85\n1000,80\n20000,78\n").points[1]!.levelDb).toBe(80);
  });

  const bad: [string, string | Uint8Array, RegExp, string][] = [
    ["a gap where a level should be", "20,0\n100,\n1000,0", /A number is missing/, "line 2, column 5"],
    ["a gap where a frequency should be", "20;0\n;1\n1000;0", /A number is missing/, "line 2, column 1"],
    ["a text for a level", "20,0\n100,flat\n1000,0", /"flat" is not a number/, "line 2, column 5"],
    ["a unit behind a number", "20 Hz;0\n100;0", /"20 Hz" is not a number/, "line 1, column 1"],
    ["text behind the table", "20;0\n100;0\nend of table", /1 column/, "line 3, column 1"],
    ["descending frequencies", "20;0\n1000;1\n500;2", /500 Hz does not rise above 1000 Hz/, "line 3, column 1"],
    ["a repeated frequency", "# a\n20;0\n500;1\n500;2", /500 Hz repeats that/, "line 4, column 1"],
    ["frequencies in kHz", "0.02,0\n0.1,1\n1,0\n20,-2", /ends at 20 Hz.*kHz/, "line 1, column 1"],
    ["frequencies re 1 kHz", "x,y\n0.125,0\n1,1\n8,0", /ends at 8 Hz/, "line 2, column 1"],
    ["frequencies out of hearing", "30000,0\n40000,0", /begins at 30000 Hz/, "line 1, column 1"],
    ["a header in kHz", "f (kHz),dB\n0.1,0\n100,1", /"f \(kHz\)" is not in Hz/, "line 1, column 1"],
    ["a header with ratios", "Hz, ratio\n100,1\n1000,1.2", /"ratio" is not in dB/, "line 1, column 5"],
    ["columns the other way round", "dB;Hz\n0;100\n1;1000", /"Hz" must be the first/, "line 1, column 4"],
    ["limits the other way round", "Hz;dB;max;min\n100;0;3;-3\n1000;0;3;-3", /"max" stands where/, "line 1, column 7"],
    ["frequency zero", "0;0\n100;0", /0 Hz is not above 0/, "line 1, column 1"],
    ["a negative frequency", "-100;0\n100;0", /-100 Hz is not above 0/, "line 1, column 1"],
    ["one row", "Hz;dB\n1000;0", /1 row\(s\); at least 2/, "line 2, column 1"],
    ["no row", "Hz;dB\n", /0 row\(s\)/, "line 1, column 1"],
    ["nothing at all", "", /0 row\(s\)/, "line 1, column 1"],
    ["one column", "20\n100", /1 column/, "line 1, column 1"],
    ["five columns", "20;0;-3;3;7\n100;0;-3;3;7", /5 column/, "line 1, column 11"],
    ["a row of another length", "20;0;-3;3\n100;0\n", /2 column\(s\), the first row has 4/, "line 2, column 5"],
    ["decimal commas between commas", "31,5,-2,5\n63,0,-1,0\n", /a comma may be either/, "line 1, column 1"],
    ["a lower limit above the curve", "100;-5;1\n1000;0;-3", /lower limit 1 dB/, "line 1, column 8"],
    ["an upper limit below the curve", "100;0;-3;-1\n1000;0;-3;3", /upper limit -1 dB/, "line 1, column 10"],
    ["levels that are something else", "100;0\n1000;440", /span 440 dB/, "line 1, column 1"],
    ["not a number by name", "100;NaN\n1000;0", /"NaN" is not a number/, "line 1, column 5"],
    ["numbers beyond all bounds", "100;1e999\n1000;0", /"1e999" is not a number/, "line 1, column 5"],
    ["lines ended by CR alone", "100;0\r1000;0\r", /carriage return/, "line 1, column 6"],
    ["a recording given by mistake", "RIFF\u0000\u0000WAVEfmt ", /0 row\(s\)/, "line 1, column 1"],
  ];
  it.each(bad)("is refused with %s, by line and column", (_, text, what, where) => {
    const error = refusal(text);
    expect(error.message).toMatch(what);
    expect(error.where).toBe(`mine.csv, ${where}`);
    expect(error.remedy).toMatch(/frequency in Hz, level in dB/);
  });

  it("is read back as it was written, whatever its numbers and separators", () => {
    const random = seededRandom(3);
    for (let run = 0; run < 200; run++) {
      let frequencyHz = 10 + 20 * random();
      const rows = Array.from({ length: 2 + Math.floor(20 * random()) }, () => {
        frequencyHz *= 1.05 + random();
        return {
          frequencyHz: frequencyHz + 20,
          levelDb: 50 * random() - 25,
          lower: -10 * random(),
          upper: 10 * random(),
        };
      });
      const separator = [";", "\t", ","][run % 3]!;
      const comma = separator !== "," && random() < 0.5;
      const number = (value: number): string => (comma ? String(value).replace(".", ",") : String(value));
      const text = rows
        .map((row) => [row.frequencyHz, row.levelDb, row.lower, row.upper].map(number).join(separator))
        .join("\n");
      const target = read(text);
      expect(target.points).toEqual(rows.map(({ frequencyHz, levelDb }) => ({ frequencyHz, levelDb })));
      for (const row of rows) {
        expect(limitsAt(target.limits, row.frequencyHz)).toEqual({ lower: row.lower, upper: row.upper });
      }
    }
  });

  it("never ends in anything but a target or an error with a place, whatever the bytes", () => {
    const random = seededRandom(5);
    const alphabet = '0123456789.,;\t\n\r -+eE"#Hzd\u00e4';
    for (let run = 0; run < 2000; run++) {
      const text = Array.from(
        { length: Math.floor(60 * random()) },
        () => alphabet[Math.floor(alphabet.length * random())],
      );
      try {
        const { points } = read(text.join(""));
        expect(points.length).toBeGreaterThan(1);
        expect(points.every((point) => Number.isFinite(point.levelDb) && point.frequencyHz > 0)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
        expect((error as InputError).where).toMatch(/^mine\.csv, line \d+, column \d+$/);
      }
    }
  });
});
