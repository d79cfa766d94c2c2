import { existsSync, readdirSync, readFileSync } from "node:fs";

import { describe, expect, it } from "vitest";

import { parseMicrophoneCalibration } from "../../src/recording/microphone-calibration.js";
import { suspectCalibration } from "../../src/recording/suspect-calibration.js";

const SWEPT = [20, 20_000] as const;
const thirds = Array.from({ length: 31 }, (_, n) => 1000 * 10 ** ((n - 17) / 10));

/** A capsule that falls below and above by so many orders of 6 dB per octave, as a table in third octaves. */
function capsule(
  lowHz: number,
  lowOrder: number,
  highHz: number,
  highOrder: number,
): { frequencyHz: number[]; levelDb: number[] } {
  const fall = (ratio: number, order: number): number => -10 * Math.log10(1 + ratio ** (2 * order));
  return {
    frequencyHz: thirds,
    levelDb: thirds.map((hz) => fall(lowHz / hz, lowOrder) + fall(hz / highHz, highOrder)),
  };
}

const kinds = (table: Parameters<typeof suspectCalibration>[0], swept: readonly [number, number] = SWEPT): string[] =>
  suspectCalibration(table, swept).map(({ kind }) => kind);

describe("Tables of real microphones are not suspected", () => {
  const folder = new URL("../../../shared/data/mic-calibration/", import.meta.url);
  const files = existsSync(folder)
    ? readdirSync(folder, { recursive: true, encoding: "utf8" }).filter(
        (file) => /(txt|csv)$/.test(file) && !/bad_|LICENSE/.test(file),
      )
    : [];
  if (files.length === 0) it.skip("not run: microphone tables in ../shared/data/mic-calibration are absent");
  it.each(files)("%s", (file) => {
    expect(kinds(parseMicrophoneCalibration(readFileSync(new URL(file, folder)), file))).toEqual([]);
  });

  it.each([
    ["flat", capsule(1, 2, 1e6, 2)],
    ["falling by 6 dB per octave below 30 Hz", capsule(30, 1, 1e6, 1)],
    ["of a telephone's small capsule: second order below 60 Hz and above 12 kHz", capsule(60, 2, 12_000, 2)],
  ])("nor of a capsule %s", (_, table) => {
    expect(kinds(table)).toEqual([]);
  });

  it("nor one that starts or ends within a third octave of what is measured", () => {
    const inner = { frequencyHz: thirds.slice(1, -1), levelDb: thirds.slice(1, -1).map(() => 0) };
    expect(kinds(inner)).toEqual([]);
    expect(kinds(capsule(1, 1, 1e6, 1), [10, 22_000])).toEqual([]);
  });
});

describe("A table that no microphone has is suspected", () => {
  const table = capsule(20, 1, 16_000, 1);
  const changed = (hz: number, level: (before: number) => number): typeof table => ({
    ...table,
    levelDb: table.levelDb.map((db, n) => (Math.abs(thirds[n]! / hz - 1) < 0.05 ? level(db) : db)),
  });

  it.each([
    ["a decimal point slipped: 0.9 dB read as 9", changed(1000, () => 9), ["jump"]],
    ["a sign lost at 5 dB", changed(20, () => 5), ["jump"]],
    ["a row of 30 dB", changed(4000, () => 30), ["jump", "range"]],
  ])("for %s", (_, bad, expected) => {
    expect(kinds(bad)).toEqual(expected);
  });

  it("but not for a step that a capsule could have", () => {
    // 3 dB and 12 dB per octave over a third of an octave are 7 dB; the table itself moves by less than 0.1 dB at 1 kHz.
    expect(kinds(changed(1000, (db) => db + 6.9))).toEqual([]);
    expect(kinds(changed(1000, (db) => db + 7.2))).toEqual(["jump"]);
  });

  it("for a sensitivity in place of deviations", () => {
    expect(kinds({ ...table, levelDb: table.levelDb.map((db) => db - 38.5) })).toEqual(["level"]);
    expect(kinds({ ...table, levelDb: table.levelDb.map((db) => db - 9) })).toEqual([]);
  });

  it("for the response of a small loudspeaker: gentle slopes, but over 24 dB", () => {
    expect(kinds(capsule(150, 2, 20_000, 2))).toContain("range");
  });

  it("for what it does not cover, and only that", () => {
    const from100 = { frequencyHz: [100, 1000, 20_000], levelDb: [0, 0, 0] };
    expect(suspectCalibration(from100, SWEPT)).toEqual([{ kind: "gap", fromHz: 25, toHz: 100 }]);
    expect(kinds(from100, [90, 20_000])).toEqual([]);
    const to8k = { frequencyHz: [20, 1000, 8000], levelDb: [0, 0, 0] };
    expect(suspectCalibration(to8k, SWEPT)).toEqual([{ kind: "gap", fromHz: 8000, toHz: 16_000 }]);
  });
});
