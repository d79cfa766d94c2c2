import fc from "fast-check";
import { afterAll, describe, expect, it } from "vitest";

import { readTargetFile } from "../../src/comparison/target/read-target-file.js";
import { InputError } from "../../src/errors.js";
import { checkSession } from "../../src/files/check-session.js";
import { refuseRecordings } from "../../src/files/refuse-recordings.js";
import { anglesIn } from "../../src/recording/calibration-angles.js";
import { parseMicrophoneCalibration } from "../../src/recording/microphone-calibration.js";
import { suspectCalibration } from "../../src/recording/suspect-calibration.js";
import { readJsonText } from "../../src/schema/json-text.js";
import { sessionSchema } from "../../src/schema/session.js";
import { validate } from "../../src/schema/validate.js";
import { LONGEST_REEL_S, parseRecipe } from "../../src/sweep/parse-recipe.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { readClassFile } from "../../src/translation/read-class-file.js";
import { seededRandom } from "../recording/seeded-random.js";
import { firstSeed, howMany } from "./how-many.js";

/** Texts that a session brings: its own, the recipe, the tables. Each ends in what it should be, or in an error for its user. */

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
let texts = 0;

function readsOrRefuses<Value>(read: () => Value, check: (value: Value) => void): void {
  texts++;
  let value: Value;
  try {
    value = read();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.message.length).toBeLessThan(600);
    expect(error.message).not.toMatch(/\[object Object\]|NaN Hz/);
    return;
  }
  check(value);
}

/** Damages a text: letters, pieces twice, pieces gone, other words. */
function damaged(text: string, seed: number, words: readonly string[]): string {
  const random = seededRandom(seed);
  const below = (count: number): number => Math.floor(random() * count);
  let changed = text;
  for (let change = below(4); change >= 0; change--) {
    const at = below(changed.length + 1);
    const to = at + below(random() < 0.7 ? 4 : 60);
    const put = [words[below(words.length)]!, changed.slice(below(changed.length), below(changed.length)), ""][
      below(3)
    ]!;
    changed = changed.slice(0, at) + put + changed.slice(to);
  }
  return changed;
}

const session = {
  schema: "carrywell/session/1",
  title: "Room B",
  room: { lengthM: 5.2, widthM: 4.1, heightM: 2.7 },
  microphone: { calibration: "mic.txt", orientationDeg: 0, level: { file: "cal.wav", soundPressureLevelDb: 94 } },
  sweep: "sweep.json",
  monitors: [{ id: "mains", role: "main", target: "tilt", placement: { L: [1, 2, 1.2], R: [1, 3, 1.2] } }],
  positions: [
    { id: "mix", kind: "mix", xyzM: [2, 2.05, 1.2] },
    { id: "sofa", kind: "room" },
  ],
  recordings: [{ file: "a.wav", monitor: "mains", position: "mix", take: 1, channel: "L", fileChannel: 2 }],
  targets: [{ id: "mine", file: "mine.csv" }],
  translation: { programme: "popular", listeningLevelDb: 79, compensation: 0.6 },
};
const KEYS = ["__proto__", "constructor", "prototype", "toString", "hasOwnProperty", "length", "then", "valueOf"];
const VALUES = [
  "1e999",
  "-0",
  "1e-999",
  "9007199254740993",
  "null",
  '"\\u0000"',
  "[]",
  "{}",
  '"<script>"',
  "true",
  '"\ud800"',
];

function asSession(text: string): void {
  readsOrRefuses(
    () => {
      const document = readJsonText(text, "session.json");
      const read = validate(sessionSchema, document);
      checkSession(read, document);
      refuseRecordings(read, document);
      return read;
    },
    (read) => {
      expect(read.schema).toBe("carrywell/session/1");
      expect(Object.getPrototypeOf(read)).toBe(Object.prototype);
    },
  );
  expect(({} as Record<string, unknown>).polluted).toBeUndefined();
}

describe("session.json", { timeout: 3_600_000 }, () => {
  const text = JSON.stringify(session, null, 2);
  const words = [
    ...KEYS.map((key) => `"${key}": {"polluted": 1},`),
    ...VALUES,
    "{",
    "}",
    "[",
    "]",
    ",",
    ":",
    '"',
    "\\",
    "\u2028",
  ];

  it("is read as it is, to begin with", () => {
    expect(validate(sessionSchema, readJsonText(text, "session.json")).monitors[0]!.id).toBe("mains");
  });

  it("damaged in its letters", () => {
    for (let n = 0; n < howMany(300, 5000); n++) asSession(damaged(text, firstSeed + n, words));
  });

  it("with any value in any place", () => {
    const paths = pathsIn(session);
    fc.assert(
      fc.property(fc.constantFrom(...paths), fc.jsonValue({ maxDepth: 4 }), (path, value) => {
        asSession(JSON.stringify(replaced(session, path, value)));
      }),
      { numRuns: howMany(300, 5000), seed: firstSeed },
    );
  });

  it("with keys that belong to every object, in any object", () => {
    for (const key of KEYS) {
      for (const place of ['"title"', '"lengthM"', '"id": "mains"', '"take"', '"programme"']) {
        asSession(text.replace(place, `"${key}": {"polluted": true}, ${place}`));
        const refused = text.replace(place, `"${key}": 1, ${place}`);
        expect(() => validate(sessionSchema, readJsonText(refused, "session.json")), key).toThrow(InputError);
      }
    }
  });

  it("nested a hundred thousand deep", () => {
    for (const [open, close] of ["[]", ['{"a":', "}"]].map((pair) => [pair[0]!, pair[1]!] as const)) {
      for (const depth of [100, 3000, 8000, 100_000]) {
        asSession(open.repeat(depth) + "1" + close.repeat(depth));
        asSession(open.repeat(depth));
        asSession(text.replace('"Room B"', open.repeat(depth) + "1" + close.repeat(depth)));
      }
    }
  });

  it("as any other text", () => {
    const anything = fc.oneof(
      fc.string({ unit: "binary" }),
      fc.json(),
      fc.constantFrom("", "\uFEFF", "null", "[]", '"'),
    );
    fc.assert(fc.property(anything, asSession), { numRuns: howMany(300, 5000), seed: firstSeed });
  });
});

describe("sweep.json", { timeout: 3_600_000 }, () => {
  const recipe = makeSweepRecipe({ durationS: 1, gapS: 1 });

  function asRecipe(text: string): void {
    readsOrRefuses(
      () => parseRecipe(text, "sweep.json"),
      (read) => {
        // What follows makes room for the sweep, for the reel and for one side of it.
        const last = read.events.at(-1)!;
        expect(last.atSample + last.samples).toBeLessThanOrEqual(LONGEST_REEL_S * 384_000);
        const alone = singleEvents(read, "L").at(-1)!;
        expect(alone.atSample).toBeLessThanOrEqual(33 * (LONGEST_REEL_S + 60) * 384_000);
      },
    );
  }

  it("with any number in any place", () => {
    const numbers = fc.oneof(
      fc.double(),
      fc.integer(),
      fc.constantFrom(0, -1, 1e9, 1e300, 2 ** 53, 1e-300, 4_000_000_000),
    );
    fc.assert(
      fc.property(fc.constantFrom(...pathsIn(recipe)), fc.oneof(numbers, fc.jsonValue()), (path, value) => {
        asRecipe(JSON.stringify(replaced(recipe, path, value)));
      }),
      { numRuns: howMany(300, 5000), seed: firstSeed },
    );
  });

  it("damaged in its letters", () => {
    const text = JSON.stringify(recipe);
    for (let n = 0; n < howMany(200, 3000); n++)
      asRecipe(damaged(text, firstSeed + n, [...VALUES, "9", "e9", ",", '"']));
  });
});

describe("Tables", { timeout: 3_600_000 }, () => {
  const microphone = "* 0°, free field\n20\t-0.7\n100\t0\n1000\t0.3\n10000\t2\n20000\t3\n";
  const target = "frequency Hz;level dB;lower;upper\n20;3;-3;3\n200;0;-3;3\n4000;-1;-3;3\n20000;-3;-3;3\n";
  const rows = [63, 125, 250, 500, 1000, 2000, 4000, 8000].map((hz) => `${hz},-9,-6,-3`).join("\n");
  const device = `frequency Hz,low dB,typical dB,high dB\n${rows}\n`;
  const words = [
    "\t",
    ";",
    ",",
    " ",
    "\n",
    "\r",
    "-",
    ".",
    "e",
    "1e999",
    "NaN",
    "Infinity",
    "0x10",
    "°",
    "90°",
    "kHz",
    "\0",
    "<",
    '"',
  ];
  const rising = (values: readonly number[]): boolean => values.every((value, n) => value > (values[n - 1] ?? 0));

  function asMicrophone(content: Uint8Array): void {
    readsOrRefuses(
      () => parseMicrophoneCalibration(content, "mic.txt", 0),
      ({ frequencyHz, levelDb }) => {
        expect(frequencyHz.length).toBe(levelDb.length);
        expect(rising(frequencyHz) && levelDb.every((level) => Math.abs(level) <= 60)).toBe(true);
        for (const suspicion of suspectCalibration({ frequencyHz, levelDb }, [20, 20_000])) {
          expect(Object.values(suspicion).every((value) => typeof value === "string" || Number.isFinite(value))).toBe(
            true,
          );
        }
      },
    );
  }

  function asTarget(content: Uint8Array): void {
    readsOrRefuses(
      () => readTargetFile(content, "mine.csv", "mine"),
      ({ points }) => {
        expect(rising(points.map(({ frequencyHz }) => frequencyHz))).toBe(true);
        expect(points.every(({ levelDb }) => Number.isFinite(levelDb))).toBe(true);
      },
    );
  }

  function asClass(content: Uint8Array): void {
    readsOrRefuses(
      () => readClassFile(content, { id: "kitchen", name: "radio", file: "kitchen.csv", mono: true }),
      (read) => {
        expect(JSON.stringify(read)).not.toMatch(/null,null,null/);
      },
    );
  }

  it.each([
    ["of a microphone", microphone, asMicrophone],
    ["of a target", target, asTarget],
    ["of a kind of device", device, asClass],
  ])("%s, damaged, are read whole or refused", (_, text, read) => {
    for (let n = 0; n < howMany(300, 5000); n++) read(bytes(damaged(text, firstSeed + n, words)));
  });

  it("of any bytes are read or refused", () => {
    fc.assert(
      fc.property(fc.oneof(fc.uint8Array({ maxLength: 200 }), fc.string().map(bytes)), (content) => {
        for (const read of [asMicrophone, asTarget, asClass]) read(content);
      }),
      { numRuns: howMany(200, 5000), seed: firstSeed },
    );
  });

  it("of a megabyte in one line, or in as many lines as fit, take no more than a moment", () => {
    const start = performance.now();
    for (const one of ["9", "1\t", "a\n", "1,", "; ", '"', "1 2\n", "- ", "0 deg "]) {
      const content = bytes(one.repeat(2 ** 20 / one.length));
      for (const read of [asMicrophone, asTarget, asClass]) read(content);
    }
    anglesIn("1".repeat(2 ** 20));
    anglesIn(" 0 ".repeat(2 ** 18));
    expect(performance.now() - start).toBeLessThan(20_000);
  });
});

afterAll(() => {
  console.log(`texts: ${texts}`);
});

/** Every place in a document, the whole of it first. */
function pathsIn(value: unknown, path: readonly PropertyKey[] = []): (readonly PropertyKey[])[] {
  if (typeof value !== "object" || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, part]) => pathsIn(part, [...path, key]))];
}

function replaced(value: unknown, [step, ...rest]: readonly PropertyKey[], by: unknown): unknown {
  if (step === undefined) return by;
  const copy: unknown = Array.isArray(value) ? [...(value as unknown[])] : { ...(value as object) };
  (copy as Record<PropertyKey, unknown>)[step] = replaced((value as Record<PropertyKey, unknown>)[step], rest, by);
  return copy;
}
