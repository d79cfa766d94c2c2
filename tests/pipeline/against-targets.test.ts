import { beforeAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/errors.js";
import type { Results } from "../../src/model.js";
import { resultsSchema } from "../../src/schema/results.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { otherSide, recordPaths, whiteNoise } from "../known-recording.js";
import { analyseInMemory, mono, recipeFile, text } from "./in-memory-session.js";

const recipe = makeSweepRecipe({ durationS: 2, gapS: 0.8, leadS: 0.6, tailS: 0.4 });
let seed = 5;
const noisy = (samples: Float64Array): Float64Array => {
  const noise = whiteNoise(samples.length, seed++);
  return samples.map((value, n) => value + 1e-4 * noise[n]!);
};
const path = [{ delayS: 0.006, gain: 0.2 }];
const paths = { L: path, R: otherSide(path) };
const left = (): Uint8Array => mono(noisy(recordPaths(recipe, singleEvents(recipe, "L"), paths)));
const files = {
  "sweep.json": recipeFile(recipe),
  "reel.wav": mono(noisy(recordPaths(recipe, recipe.events, paths))),
  "nears.wav": left(),
  "own.wav": left(),
  "away.wav": left(),
  "mine.csv": text("Hz;dB;lower;upper\r\n100;-1,5;-2;2\r\n10000;-1,5;-2;2\r\n"),
};
const session = {
  schema: "carrywell/session/1" as const,
  sweep: "sweep.json",
  room: { lengthM: 5, widthM: 4, heightM: 4 },
  targets: [{ id: "mine", file: "mine.csv" }],
  monitors: [
    { id: "mains", role: "main" as const },
    { id: "nears", role: "nearfield" as const },
    { id: "own", role: "main" as const, target: "mine" },
    { id: "away", role: "check" as const },
  ],
  positions: [
    { id: "mix", kind: "mix" as const },
    { id: "back", kind: "room" as const },
  ],
  recordings: [
    { file: "reel.wav", monitor: "mains", position: "mix" },
    { file: "nears.wav", monitor: "nears", position: "mix", channel: "L" as const },
    { file: "own.wav", monitor: "own", position: "mix", channel: "R" as const },
    { file: "away.wav", monitor: "away", position: "back", channel: "R" as const },
  ],
};

describe("A session of flat loudspeakers without a room", () => {
  let results: Results;
  beforeAll(async () => {
    ({ results } = await analyseInMemory(session, files));
  });
  const monitor = (id: string): Results["monitors"][number] => results.monitors.find((one) => one.id === id)!;

  it("has a target and checks for every monitor at the mix position, as the schema has them", () => {
    expect(resultsSchema.parse(results)).toEqual(results);
    expect(results.monitors.map(({ target }) => target?.id ?? null)).toEqual(["tilt", "flat", "mine", null]);
    expect(monitor("away")).toMatchObject({ targetReason: "not-measured-at-mix", checks: [] });
    expect(results.provenance.files.find(({ file }) => file === "mine.csv")).toMatchObject({
      use: "target",
      channels: null,
    });
  });

  it("keeps to the flat target, and leaves the tilted one by its own slope", () => {
    const flat = monitor("nears").target!;
    // 60 dB over the noise: 0.02 dB at most, and a short sweep's edges.
    expect(flat.offsetDb).toBeCloseTo(20 * Math.log10(0.2), 1);
    expect([flat.withinPercent, flat.fitHz]).toEqual([100, [200, 4000]]);
    expect(flat.rmsDb).toBeLessThan(0.05);
    const tilted = monitor("mains").target!;
    const at = (hz: number): number => tilted.bands.find(({ nominalHz }) => nominalHz === hz)!.deviationDb!;
    // Four octaves at half a decibel each.
    expect(Math.abs(at(2000) - at(125) - 2)).toBeLessThan(0.05);
  });

  it("uses the session's own target inside its range alone", () => {
    const own = monitor("own").target!;
    expect(own).toMatchObject({ advisory: false, source: "mine.csv", withinPercent: 100 });
    expect(own.offsetDb).toBeCloseTo(20 * Math.log10(0.2) + 1.5, 1);
    expect(own.bands.filter(({ targetDb }) => targetDb !== null).map(({ nominalHz }) => nominalHz)).toHaveLength(21);
  });

  it("passes both response masks and the match of its sides, and does not guess at what it cannot know", () => {
    const checks = monitor("mains").checks;
    const of = (code: string): object => checks.find((check) => check.code === code)!;
    expect(of("bs1116-response")).toMatchObject({ pass: true, advisory: true });
    expect(of("ebu3276-response")).toMatchObject({ pass: true });
    expect(of("left-right-match")).toMatchObject({ pass: true });
    expect(of("left-right-arrival")).toMatchObject({ pass: true });
    expect(of("early-reflections")).toMatchObject({ pass: true });
    // Without a room there is no decay to read, and without a calibrator no noise level.
    expect(of("reverberation")).toMatchObject({ pass: null, reason: "no-band-could-be-judged" });
    expect(of("background-noise")).toMatchObject({ pass: null, reason: "not-calibrated" });
    expect(monitor("nears").checks.find(({ code }) => code === "left-right-match")).toMatchObject({
      pass: null,
      reason: "one-channel",
    });
  });
});

describe("A session with a damaged target", () => {
  it("is refused as a whole, by file, line and column", async () => {
    const damaged = { ...files, "mine.csv": text("20;0\n1000;0\n500;0\n") };
    const error = await analyseInMemory(session, damaged).catch((caught: unknown) => caught);
    expect(error).toBeInstanceOf(InputError);
    expect((error as InputError).where).toBe("mine.csv, line 3, column 1");
  });
});

describe("A session without a mix position", () => {
  it("has no target laid on anything, and says why", async () => {
    const { results } = await analyseInMemory(
      { ...session, positions: session.positions.map(({ id }) => ({ id, kind: "room" as const })) },
      files,
    );
    for (const { target, targetReason, checks } of results.monitors) {
      expect([target, targetReason, checks]).toEqual([null, "no-mix-position", []]);
    }
  });
});
