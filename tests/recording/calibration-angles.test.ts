import { describe, expect, it } from "vitest";

import { anglesIn } from "../../src/recording/calibration-angles.js";
import { parseMicrophoneCalibration } from "../../src/recording/microphone-calibration.js";
import { inputErrorOf } from "./thrown-by.js";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

describe("Angles in words", () => {
  it.each([
    ["Hz 0° 90°", [0, 90]],
    ["condenser_mic_0deg.txt", [0]],
    ["mic-90deg.txt", [90]],
    ["* diffuse, 30 degrees", [30]],
    ["frequency, 0 deg., 45 deg.", [0, 45]],
    ["on-axis response", [0]],
    ["Freq [Hz] Gain [dB] Phase [deg]", []],
    ["measured at 23 °C, 23.5°C, 45 % r.h.", []],
    ["at 20 deg C", []],
    ["serial 1290 degrade", []],
  ])("%s", (words, angles) => {
    expect(anglesIn(words)).toEqual(angles);
  });
});

describe("A table of several angles", () => {
  const text = "* Hz\t0°\t90°\n20\t-0.7\t-0.6\n1000\t0\t0\n16000\t3\t-2.8\n";
  const pick = (orientation: number | null, table = text): readonly number[] =>
    parseMicrophoneCalibration(bytes(table), "mic.txt", orientation).levelDb;

  it("gives the column for the microphone's orientation", () => {
    expect(pick(0)).toEqual([-0.7, 0, 3]);
    expect(pick(90)).toEqual([-0.6, 0, -2.8]);
    expect(pick(87)).toEqual([-0.6, 0, -2.8]);
  });

  it("may have a header that is no comment, semicolons and decimal commas, and more than two angles", () => {
    const three = "Hz;0 deg;30 deg;90 deg\r\n20;0,5;0,4;0,3\r\n20000;3;1;-4,5\r\n";
    expect(pick(30, three)).toEqual([0.4, 1]);
    expect(parseMicrophoneCalibration(bytes(three), "mic.txt", 90).angleDeg).toBe(90);
  });

  it.each([
    [
      "without an orientation",
      null,
      text,
      /columns for 0°, 90°, and the session does not say/,
      "mic.txt, line 1, column 1",
    ],
    ["with one that it does not hold", 45, text, /none is for 45°/, "mic.txt, line 1, column 1"],
    [
      "with a column too few",
      0,
      "Hz 0° 30° 90°\n20 1 2\n200 1 2\n",
      /line 1 names 3 angles/,
      "mic.txt, line 2, column 1",
    ],
    [
      "with a defect in the column that is not used",
      0,
      "Hz 0° 90°\n20 1 2\n200 1 x\n",
      /"x" is not/,
      "mic.txt, line 3, column 7",
    ],
    ["with a level that is none", 90, "Hz 0° 90°\n20 1 2\n200 1 99\n", /99 dB is no/, "mic.txt, line 3, column 7"],
  ])("is refused %s", (_, orientation, table, what, where) => {
    const error = inputErrorOf(() => pick(orientation, table));
    expect(error.message).toMatch(what);
    expect(error.where).toBe(where);
  });
});

describe("A table of one angle", () => {
  it.each([
    ["mic_90deg.txt", "20 0\n200 0\n", 90],
    ["mic.txt", "* 0°, free field\n20 0\n200 0\n", 0],
    ["mic.txt", "Freq\t0°\tPhase\n20\t0\t180\n200\t0\t90\n", 0],
    ["mic.txt", "20 0\n200 0\n", null],
    ["mic_0deg.txt", "* taken at 90°\n20 0\n200 0\n", null],
  ])("%s says so, or does not", (name, text, angle) => {
    expect(parseMicrophoneCalibration(bytes(text), name).angleDeg).toBe(angle);
  });
});
