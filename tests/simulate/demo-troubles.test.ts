import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/model.js";
import { builtInTroubles } from "../../src/simulate/demo-studio.js";
import { analyseInMemory } from "../pipeline/in-memory-session.js";
import { recordedDemo } from "./recorded-demo.js";

const SEEDS = [...Array(3).keys()].map((n) => n + 1);
/** NR 3, 9 and 14 in the room: more noise than that is a finding of its own. */
const PINK_DB_RMS = [-98, -92, -87] as const;

const record = recordedDemo();

// Each run measures twelve recordings, some 3 s of a processor.
describe.each(PINK_DB_RMS)("The demo with noise at %d dB re full scale", (pinkDbRms) => {
  it.each(SEEDS)("shows the four troubles that were built in and no other (seed %d)", async (seed) => {
    const { session, files } = record(pinkDbRms, seed);
    const { results, rejected } = await analyseInMemory(session, files);
    expect(rejected).toEqual([]);
    const told = results.findings.filter(({ severity }) => severity !== "info");
    expect(told.map(troubleOf).sort()).toEqual(builtInTroubles.map(({ code }) => code).sort());
    for (const trouble of builtInTroubles) {
      const found = told.find((finding) => troubleOf(finding) === trouble.code)!;
      expect(found.monitors).toEqual(trouble.monitors);
      if (trouble.channels) expect(found.channels).toEqual(trouble.channels);
      // The fine grid of the envelope reads a delay to a few microseconds; the list states it to ten.
      if (trouble.delayS !== undefined) expect(Math.abs(found.atS! - trouble.delayS)).toBeLessThan(15e-6);
      if (trouble.rangeHz) expectRange(found, trouble.rangeHz);
    }
    // What a measurement says of itself: nothing went wrong here.
    expect(results.measurements.flatMap(({ quality }) => quality.findings)).toEqual([]);
  });
});

/** Where noise hides which of two close modes rings, the bands tell it instead. */
function troubleOf({ code }: Finding): string {
  return code === "rings" ? "mode-rings" : code;
}

/** A finding of bands names those bands; one of a single frequency lies between the two. */
function expectRange({ rangeHz, value, unit }: Finding, [fromHz, toHz]: readonly [number, number]): void {
  if (rangeHz) expect(rangeHz).toEqual([fromHz, toHz]);
  else {
    expect(unit).toBe("Hz");
    expect(value).toBeGreaterThan(fromHz);
    expect(value).toBeLessThan(toHz);
  }
}
