import { describe, expect, it } from "vitest";

import { PLAYBACK_CLASSES } from "../../src/standards/playback-classes.js";
import { classLevelDb } from "../../src/standards/playback-classes/playback-class.js";
import { referenceTable } from "./reference-table.js";

const classes = new Map(PLAYBACK_CLASSES.map((one) => [one.id, one]));

/** Names of the reference tables. */
const TABLE_NAME = new Map([
  ["wireless", "bluetooth_small"],
  ["tv", "tv_builtin"],
  ["earphones", "earbuds_sealed"],
]);

describe("Playback classes", () => {
  const envelopes = referenceTable("playback-class-envelopes");
  const levels = referenceTable("playback-class-levels");

  it.skipIf(!envelopes)("have the envelopes of the reference table", () => {
    for (const { id, envelope } of PLAYBACK_CLASSES) {
      const rows = envelopes!.filter((row) => row["class"] === (TABLE_NAME.get(id) ?? id));
      expect(envelope).toEqual(
        rows.map((row) => ["f_hz", "low_db", "typical_db", "high_db"].map((column) => Number(row[column]) + 0)),
      );
    }
  });

  it.skipIf(!levels)("have the levels of the reference table", () => {
    for (const { id, levelDba } of PLAYBACK_CLASSES) {
      const row = levels!.find((row) => row["class"] === (TABLE_NAME.get(id) ?? id))!;
      const text = Object.values(row).join(",");
      const { low, typical, high, noise } = levelDba;
      expect(text).toContain(`,${low},${typical},${high},${noise},`);
    }
  });

  it("never put a poor member above an ordinary one, nor that above a good one", () => {
    for (const { envelope } of PLAYBACK_CLASSES) {
      for (const [, low, typical, high] of envelope) {
        expect(low).toBeLessThan(typical);
        expect(typical).toBeLessThan(high);
      }
    }
  });

  /** Summary of the reference tables: where the typical member of each is 6 dB down, from the curves themselves. */
  it.each([
    ["phone", 481],
    ["laptop", 289],
    ["wireless", 72],
    ["tv", 138],
  ])("let the typical %s end at %d Hz", (id, endHz) => {
    // Printed to whole hertz; the slope is 8 dB a band at most: 0.5 Hz is under 0.1 dB.
    expect(Math.abs(classLevelDb(classes.get(id)!, endHz, "typical")! + 6)).toBeLessThan(0.1);
  });

  it("are unknown outside the audible range", () => {
    expect(classLevelDb(classes.get("car")!, 19, "low")).toBeNull();
    expect(classLevelDb(classes.get("car")!, 21_000, "high")).toBeNull();
  });
});
