import { beforeAll, describe, expect, it } from "vitest";
import type { Results } from "../../src/model.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { resultsSchema } from "../../src/schema/results.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { filtered, otherSide, type Path, recordPaths, whiteNoise } from "../known-recording.js";
import { analyseInMemory, mono, recipeFile } from "./in-memory-session.js";

const recipe = makeSweepRecipe({ durationS: 2, gapS: 0.8, leadS: 0.6, tailS: 0.4 });

function reel(left: readonly Path[], right: readonly Path[], seed: number): Float64Array {
  const samples = recordPaths(recipe, recipe.events, { L: left, R: otherSide(right) });
  const noise = whiteNoise(samples.length, seed);
  return samples.map((value, n) => value + 1e-5 * noise[n]!);
}

/** 30 dB less below 47 Hz, between the third octaves of 40 and 50 Hz. */
function small(samples: Float64Array): Float64Array {
  return filtered(samples, 48_000, (hz) => ({ re: hz < 44.7 ? 0.0316 : 1, im: 0 })).subarray(0, samples.length);
}

/** The left main has a reflection 4 ms late at -9.1 dB; the nearfields arrive 0.5 ms apart and end at 45 Hz. */
const mainsLeft = (gain: number): Path[] => [
  { delayS: 0.006, gain },
  { delayS: 0.01, gain: 0.35 * gain },
];
const one = (delayS: number, gain: number): Path[] => [{ delayS, gain }];
const recordings = {
  "mains-mix.wav": reel(mainsLeft(0.2), one(0.0062, 0.2), 1),
  "mains-sofa.wav": reel(mainsLeft(0.1), one(0.0062, 0.1), 2),
  "nears-mix.wav": small(reel(one(0.004, 0.1), one(0.0045, 0.1), 3)),
  "nears-sofa.wav": small(reel(one(0.004, 0.05), one(0.0045, 0.05), 4)),
};

/** Mean over log frequency of the squared response of a direct sound and its reflection: in steps far finer than the comb. */
function combPower(fromHz: number, toHz: number): number {
  const steps = 10_000;
  let sum = 0;
  for (let n = 0; n < steps; n++) {
    const hz = fromHz * (toHz / fromHz) ** ((n + 0.5) / steps);
    sum += 1 + 0.35 ** 2 + 2 * 0.35 * Math.cos(2 * Math.PI * hz * 0.004);
  }
  return sum / steps;
}

describe("two monitors at two places", () => {
  let results: Results;
  const band = <Band extends { nominalHz: number }>(bands: readonly Band[], hz: number): Band =>
    bands.find(({ nominalHz }) => nominalHz === hz)!;

  beforeAll(async () => {
    const session = {
      schema: "carrywell/session/1" as const,
      sweep: "sweep.json",
      microphone: { gainFixed: true },
      monitors: [
        { id: "mains", role: "main" as const },
        { id: "nears", role: "nearfield" as const },
      ],
      positions: [
        { id: "mix", kind: "mix" as const, xyzM: [2, 2, 1.2] as [number, number, number] },
        { id: "sofa", kind: "room" as const, xyzM: [6, 2, 1.2] as [number, number, number] },
      ],
      recordings: Object.keys(recordings).map((file) => {
        const [monitor, position] = file.slice(0, -4).split("-") as [string, string];
        return { file, monitor, position };
      }),
    };
    const sounds = Object.entries(recordings).map(([file, samples]) => [file, mono(samples)] as const);
    const analysis = await analyseInMemory(session, {
      "sweep.json": recipeFile(recipe),
      ...Object.fromEntries(sounds),
    });
    expect(analysis.rejected).toEqual([]);
    results = analysis.results;
  });

  it("give results that the schema accepts", () => {
    expect(resultsSchema.safeParse(results).error).toBeUndefined();
  });

  it("show the reflection that one side has, and on that side only", () => {
    const [mains, nears] = results.monitors;
    expect(mains!.leftRight!.oneSided).toHaveLength(1);
    const [found] = mains!.leftRight!.oneSided;
    expect(found!.channel).toBe("L");
    // A sample.
    expect(Math.abs(found!.delayS - 0.004)).toBeLessThan(1 / 48_000);
    // What the sound around the peak can add to it, twice.
    expect(Math.abs(found!.levelDb - 20 * Math.log10(0.35))).toBeLessThan(Math.max(0.1, 2 * found!.levelUncertaintyDb));
    expect(found!.otherLevelDb).toBeLessThan(-25);
    expect(nears!.leftRight!.oneSided).toEqual([]);
  });

  it("state left against right with the uncertainty of two single takes", () => {
    const { leftRight } = results.monitors[1]!;
    expect(leftRight!.levelDb).toBeCloseTo(0, 2);
    // The floor of 0.2 dB twice; noise 60 dB down adds under a hundredth.
    expect(leftRight!.levelUncertaintyDb).toBeCloseTo(0.2 * Math.SQRT2, 2);
    expect(band(leftRight!.bands, 1000).uncertaintyDb).toBeCloseTo(0.2 * Math.SQRT2, 2);
  });

  it("hold the phantom centre against sides half a millisecond apart", () => {
    const { phantom } = results.monitors[1]!.leftRight!;
    for (const hz of [100, 200, 315]) {
      // |1 + exp(-j 2 pi f t)| / 2 = cos(pi f t); over the band it bends by under 0.05 dB.
      const expectedDb = 20 * Math.log10(Math.cos(Math.PI * hz * 0.0005));
      expect(Math.abs(band(phantom!, hz).againstLeftDb! - expectedDb), `${hz} Hz`).toBeLessThan(0.05);
      expect(Math.abs(band(phantom!, hz).againstRightDb! - expectedDb), `${hz} Hz`).toBeLessThan(0.05);
    }
    expect(phantom!.every(({ nominalHz }) => nominalHz <= 500)).toBe(true);
  });

  it("are averaged over places as energy, with the spread between them", () => {
    const { positions } = results.monitors[1]!;
    expect(positions!.ids).toEqual(["mix", "sofa"]);
    const { levelDb, spreadDb, roomUncertaintyDb } = band(positions!.bands, 1000);
    expect(levelDb).toBeCloseTo(10 * Math.log10((0.1 ** 2 + 0.05 ** 2) / 2), 1);
    const apartDb = 20 * Math.log10(2);
    expect(spreadDb).toBeCloseTo(apartDb / Math.SQRT2, 1);
    // Pairs of 0.2 / sqrt 2 dB with shares of 0.8 and 0.2; half the distance from the spread.
    const own = (0.2 / Math.SQRT2) * Math.hypot(0.8, 0.2);
    expect(roomUncertaintyDb).toBeCloseTo(Math.hypot(own, apartDb / 2), 1);
    // Nothing decays in paths without a room.
    expect(positions!.decay.every(({ timeS, roomUncertaintyS }) => timeS === null && roomUncertaintyS === null)).toBe(
      true,
    );
  });

  it("differ by what they were played apart, at the mix position and in the room", () => {
    const [comparison] = results.comparisons;
    expect(comparison).toMatchObject({ a: "mains", b: "nears", includesGain: false, arrivalS: null });
    expect(comparison!.arrivalReason).toBe("no-loopback");
    const apartDb = 20 * Math.log10(2) + 10 * Math.log10((1 + combPower(178, 4467)) / 2);
    // Noise 60 dB down, and the edges of fourteen bands.
    expect(Math.abs(comparison!.levelOffsetDb! - apartDb)).toBeLessThan(0.01);
    expect(comparison!.levelUncertaintyDb).toBeCloseTo(0.2, 1);
    const room = band(comparison!.roomBands!, 4000);
    const bandDb = 20 * Math.log10(2) + 10 * Math.log10((1 + combPower(3548, 4467)) / 2);
    expect(Math.abs(room.differenceDb! - bandDb)).toBeLessThan(0.01);
    expect(room.uncertaintyDb!).toBeGreaterThan(band(comparison!.bands, 4000).uncertaintyDb!);
  });

  it("show below the end of the nearfields what these hide", () => {
    const [comparison] = results.comparisons;
    const { aHz, bHz, gapOctaves } = comparison!.extension;
    expect([aHz, gapOctaves]).toEqual([null, null]);
    expect(bHz).toBeGreaterThan(40);
    expect(bHz).toBeLessThan(51);
    const [lowest] = comparison!.shows;
    expect(lowest).toMatchObject({ monitor: "mains", other: "nears", kind: "reach" });
    expect(Math.abs(lowest!.toHz - 44.67)).toBeLessThan(0.01);
    expect(lowest!.differenceDb).toBeGreaterThan(15);
  });
});

it("monitors recorded with the electrical signal differ in arrival by their times of flight", async () => {
  const events = singleEvents(recipe, "L");
  const two = (delayS: number): Uint8Array =>
    encodeWav(
      [0, delayS].map((at) => recordPaths(recipe, events, { L: one(at, 0.3), R: [] })),
      48_000,
      "float32",
    );
  const recording = { position: "mix", channel: "L" as const, fileChannel: 2, loopback: 1 };
  const { results } = await analyseInMemory(
    {
      schema: "carrywell/session/1",
      sweep: "sweep.json",
      monitors: [
        { id: "mains", role: "main" },
        { id: "nears", role: "nearfield" },
      ],
      positions: [{ id: "mix", kind: "mix" }],
      recordings: [
        { ...recording, file: "far.wav", monitor: "mains" },
        { ...recording, file: "close.wav", monitor: "nears" },
      ],
    },
    { "sweep.json": recipeFile(recipe), "far.wav": two(0.0071), "close.wav": two(0.0031) },
  );
  const [comparison] = results.comparisons;
  // A tenth of a sample.
  expect(Math.abs(comparison!.arrivalS! - 0.004)).toBeLessThan(2e-6);
  expect(comparison!.arrivalReason).toBeNull();
  expect(comparison!.roomBands).toBeNull();
});
