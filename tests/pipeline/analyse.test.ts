import { describe, expect, it } from "vitest";
import { resultsSchema } from "../../src/schema/results.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { filtered, otherSide, recordPaths, whiteNoise } from "../known-recording.js";
import { analyseInMemory, mono, recipeFile, text } from "./in-memory-session.js";

const recipe = makeSweepRecipe({ durationS: 2, gapS: 0.8, leadS: 0.6, tailS: 0.4 });
const near = (delayS: number, gain: number) => [{ delayS, gain }];
const reel = (left = near(0.006, 0.2), right = near(0.0062, 0.2), seed = 1): Float64Array => {
  const samples = recordPaths(recipe, recipe.events, { L: left, R: otherSide(right) });
  const noise = whiteNoise(samples.length, seed);
  return samples.map((value, n) => value + 1e-4 * noise[n]!);
};
const single = (gain: number, seed = 2): Float64Array => {
  const samples = recordPaths(recipe, singleEvents(recipe, "L"), { L: near(0.004, gain), R: near(0.004, gain) });
  const noise = whiteNoise(samples.length, seed);
  return samples.map((value, n) => value + 1e-4 * noise[n]!);
};

const base = {
  schema: "carrywell/session/1" as const,
  sweep: "sweep.json",
  monitors: [
    { id: "mains", role: "main" as const },
    { id: "nears", role: "nearfield" as const },
  ],
  positions: [{ id: "mix", kind: "mix" as const }],
};
const files = { "sweep.json": recipeFile(recipe) };
const at = (curve: readonly (number | null)[], frequencies: readonly number[], hz: number): number =>
  curve[frequencies.findIndex((one) => one >= hz)]!;

describe("a session", () => {
  it("becomes results that the schema accepts, the same bytes every time", async () => {
    const session = {
      ...base,
      recordings: [
        { file: "mains.wav", monitor: "mains", position: "mix" },
        { file: "near-L.wav", monitor: "nears", position: "mix", channel: "L" as const },
      ],
    };
    const all = { ...files, "mains.wav": mono(reel()), "near-L.wav": mono(single(0.1)) };
    const first = await analyseInMemory(session, all);
    const second = await analyseInMemory(session, all);
    expect(resultsSchema.parse(first.results)).toEqual(first.results);
    expect(JSON.stringify(second.results)).toBe(JSON.stringify(first.results));
    expect(JSON.stringify(first.results)).not.toMatch(/NaN|Infinity/);
    expect(first.rejected).toEqual([]);
    expect(first.results.measurements.map(({ id, derived }) => [id, derived])).toEqual([
      ["mains-L@mix", false],
      ["mains-both@mix", true],
      ["mains-R@mix", false],
      ["nears-L@mix", false],
    ]);
    expect(first.results.provenance.files.map(({ file }) => file)).toEqual(["sweep.json", "mains.wav", "near-L.wav"]);
    const nears = first.results.monitors[1]!;
    expect(nears.leftRight).toBeNull();
    expect(nears.leftRightReason).toBe("one-channel");
  });

  it("reads a gain of 0.2 as -14 dB, flat, with left and right apart by what they were played apart", async () => {
    const session = { ...base, recordings: [{ file: "mains.wav", monitor: "mains", position: "mix" }] };
    const right = near(0.0062, 0.1);
    const { results } = await analyseInMemory(session, { ...files, "mains.wav": mono(reel(undefined, right)) });
    const { response } = results.measurements[0]!;
    for (const hz of [30, 100, 1000, 10_000]) {
      // 60 dB over the noise: 0.02 dB at most.
      expect(at(response.levelDb, response.frequencyHz, hz)).toBeCloseTo(20 * Math.log10(0.2), 1);
    }
    const { leftRight } = results.monitors[0]!;
    expect(leftRight!.levelDb).toBeCloseTo(20 * Math.log10(2), 2);
    expect(Math.abs(leftRight!.arrivalS! + 0.0002)).toBeLessThan(2e-6);
    expect(leftRight!.samePolarity).toBe(true);
    expect(leftRight!.includesGain).toBe(false);
    const phantom = results.measurements.find(({ derived }) => derived)!;
    // At 100 Hz 0.2 ms are 7 degrees: the sum of 0.2 and 0.1.
    const sum = Math.hypot(0.2 + 0.1 * Math.cos(0.04 * Math.PI), 0.1 * Math.sin(0.04 * Math.PI));
    expect(at(phantom.response.levelDb, phantom.response.frequencyHz, 100)).toBeCloseTo(20 * Math.log10(sum), 1);
    expect(at(phantom.response.levelDb, phantom.response.frequencyHz, 1000)).toBeNull();
  });

  it("takes the microphone's table out and states sound pressure where a calibrator was recorded", async () => {
    const tone = Float64Array.from(
      { length: 5 * 48_000 },
      (_, n) => 0.05 * Math.sin((2 * Math.PI * 1000 * n) / 48_000),
    );
    const session = {
      ...base,
      microphone: { calibration: "mic.txt", level: { file: "cal.wav", soundPressureLevelDb: 94 } },
      recordings: [{ file: "near.wav", monitor: "nears", position: "mix", channel: "R" as const }],
    };
    const { results } = await analyseInMemory(session, {
      ...files,
      "near.wav": mono(single(0.2)),
      "cal.wav": mono(tone),
      "mic.txt": text("20 0\n500 0\n1000 1\n4000 3\n20000 3\n"),
    });
    const [measurement] = results.measurements;
    expect(measurement!.levelReference).toBe("spl");
    const { response } = measurement!;
    // 94 dB read 0.05 * 10^(1/20) too high at 1 kHz: a full-scale sine is 94 - 20 lg 0.05 + 1 dB.
    const fullScale = 94 - 20 * Math.log10(0.05) + 1;
    const flat = fullScale + recipe.levelDbfs + 20 * Math.log10(0.2);
    expect(at(response.levelDb, response.frequencyHz, 100)).toBeCloseTo(flat, 1);
    expect(at(response.levelDb, response.frequencyHz, 1000)).toBeCloseTo(flat - 1, 1);
    expect(at(response.levelDb, response.frequencyHz, 8000)).toBeCloseTo(flat - 3, 1);
    // White noise of 1e-4: in the octave at 1 kHz, 707 Hz of 24 kHz, weighted flat there.
    const noise = measurement!.background!.bands.find(({ nominalHz }) => nominalHz === 1000)!.levelDb!;
    const octaveHz = 1000 * (10 ** 0.15 - 10 ** -0.15);
    const expected = fullScale + 10 * Math.log10(2 * 1e-8 * (octaveHz / 24_000)) - 1;
    // 0.55 s of one octave hold 780 independent values: 0.16 dB, three times that.
    expect(Math.abs(noise - expected)).toBeLessThan(0.5);
  });

  it("averages two takes and says how far they agree", async () => {
    const session = {
      ...base,
      recordings: [1, 2].map((take) => ({
        file: `t${take}.wav`,
        monitor: "nears",
        position: "mix",
        channel: "L" as const,
        take,
      })),
    };
    const takes = { "t1.wav": mono(single(0.2, 5)), "t2.wav": mono(single(0.2, 6)) };
    const { results } = await analyseInMemory(session, { ...files, ...takes });
    expect(results.measurements).toHaveLength(1);
    expect(results.measurements[0]!.takes).toBe(2);
    expect(results.measurements[0]!.quality.repeatabilityDb).toBeLessThan(0.05);
    const moved = { ...takes, "t2.wav": mono(single(0.25, 6)) };
    const disagreeing = (await analyseInMemory(session, { ...files, ...moved })).results.measurements[0]!;
    expect(disagreeing.quality.findings.map(({ code }) => code)).toContain("gain-changed");
    const mean = 10 * Math.log10((0.2 ** 2 + 0.25 ** 2) / 2);
    expect(at(disagreeing.response.levelDb, disagreeing.response.frequencyHz, 1000)).toBeCloseTo(mean, 1);
  });

  it("measures the time of flight with a loopback channel, and polarity with it", async () => {
    const electrical = recordPaths(recipe, singleEvents(recipe, "L"), { L: near(0, 0.5), R: [] });
    const acoustic = recordPaths(recipe, singleEvents(recipe, "L"), { L: near(0.0071, -0.2), R: [] });
    const session = {
      ...base,
      recordings: [
        { file: "two.wav", monitor: "nears", position: "mix", channel: "L" as const, fileChannel: 2, loopback: 1 },
      ],
    };
    const { results } = await analyseInMemory(session, {
      ...files,
      "two.wav": encodeWav([electrical, acoustic], 48_000, "float32"),
    });
    const { arrival } = results.measurements[0]!;
    expect(Math.abs(arrival.timeS! - 0.0071)).toBeLessThan(1e-6);
    expect(arrival.polarity).toBe(-1);
  });

  it("takes an impulse response as it is", async () => {
    const impulse = new Float64Array(24_000);
    impulse[1000] = 0.5;
    const session = {
      ...base,
      recordings: [
        {
          file: "ir.wav",
          monitor: "nears",
          position: "mix",
          channel: "L" as const,
          kind: "impulse" as const,
          timeZeroSample: 700,
        },
      ],
    };
    const { results } = await analyseInMemory(session, { ...files, "ir.wav": mono(impulse) });
    const [measurement] = results.measurements;
    expect(Math.abs(measurement!.arrival.timeS! - 300 / 48_000)).toBeLessThan(1e-6);
    expect(at(measurement!.response.levelDb, measurement!.response.frequencyHz, 1000)).toBeCloseTo(
      20 * Math.log10(0.5),
      3,
    );
    expect(measurement!.distortion).toBeNull();
    expect(measurement!.quality.signalToNoiseDb).toBeNull();
  });

  it("takes the microphone out of an impulse response too, which stays a transfer", async () => {
    const impulse = new Float64Array(24_000);
    impulse[1000] = 0.5;
    const session = {
      ...base,
      microphone: { calibration: "mic.txt" },
      recordings: [
        { file: "ir.wav", monitor: "nears", position: "mix", channel: "L" as const, kind: "impulse" as const },
      ],
    };
    const { results } = await analyseInMemory(session, {
      ...files,
      "ir.wav": mono(impulse),
      "mic.txt": text("20 0\n1000 0\n2000 2\n20000 2\n"),
    });
    const { response, levelReference } = results.measurements[0]!;
    expect(levelReference).toBe("transfer");
    // A flat pulse of 0.5: exact but for the calibration's own steps between bins.
    expect(at(response.levelDb, response.frequencyHz, 500)).toBeCloseTo(20 * Math.log10(0.5), 2);
    expect(at(response.levelDb, response.frequencyHz, 5000)).toBeCloseTo(20 * Math.log10(0.5) - 2, 2);
  });

  it("averages two takes of an impulse response that begins at once, and keeps its treble", async () => {
    const impulse = new Float64Array(24_000);
    impulse[0] = 0.5;
    const recording = {
      file: "ir.wav",
      monitor: "nears",
      position: "mix",
      channel: "L" as const,
      kind: "impulse" as const,
    };
    const session = { ...base, recordings: [recording, { ...recording, file: "again.wav", take: 2 }] };
    const again = impulse.slice();
    // A hundred dB down: another take, if a very good one.
    again[12_000] = 5e-6;
    const takes = { "ir.wav": mono(impulse), "again.wav": mono(again) };
    const { results, rejected } = await analyseInMemory(session, { ...files, ...takes });
    expect(rejected).toEqual([]);
    const [measurement] = results.measurements;
    expect(measurement!.takes).toBe(2);
    expect(Math.abs(measurement!.arrival.inFileS!)).toBeLessThan(1e-6);
    for (const hz of [30, 1000, 15_000]) {
      expect(at(measurement!.response.levelDb, measurement!.response.frequencyHz, hz)).toBeCloseTo(
        20 * Math.log10(0.5),
        2,
      );
    }
  });

  it("measures monitors of different sample rates side by side", async () => {
    const recording = { position: "mix", channel: "L" as const, kind: "impulse" as const };
    const session = {
      ...base,
      recordings: [
        { ...recording, file: "slow.wav", monitor: "mains" },
        { ...recording, file: "fast.wav", monitor: "nears" },
      ],
    };
    const pulse = (length: number): Float64Array => new Float64Array(length).fill(-0.5, 700, 701);
    const { results, rejected } = await analyseInMemory(session, {
      ...files,
      "slow.wav": mono(pulse(24_000)),
      "fast.wav": mono(pulse(96_000), 192_000),
    });
    expect(rejected).toEqual([]);
    expect(results.measurements.map(({ arrival }) => arrival.polarity)).toEqual([1, 1]);
  });

  it("does not average takes of different sweeps: the second is named, the first stands", async () => {
    const narrow = makeSweepRecipe({ durationS: 2, startHz: 100, endHz: 10_000, gapS: 0.8, leadS: 0.6, tailS: 0.4 });
    const narrowTake = recordPaths(narrow, singleEvents(narrow, "L"), { L: near(0.004, 0.2), R: [] });
    const recording = { monitor: "nears", position: "mix", channel: "L" as const };
    const session = {
      ...base,
      recordings: [
        { ...recording, file: "a.wav" },
        { ...recording, file: "b.wav", take: 2, sweep: "narrow.json" },
      ],
    };
    const { results, rejected } = await analyseInMemory(session, {
      ...files,
      "narrow.json": recipeFile(narrow),
      "a.wav": mono(single(0.2)),
      "b.wav": mono(narrowTake),
    });
    expect(rejected.map(({ code, recordings }) => [code, recordings])).toEqual([["take-misfits", ["b.wav"]]]);
    const { response, takes } = results.measurements[0]!;
    expect(takes).toBe(1);
    expect(at(response.levelDb, response.frequencyHz, 50)).toBeCloseTo(20 * Math.log10(0.2), 1);
  });

  it("holds polarity against the loopback's own", async () => {
    const events = singleEvents(recipe, "L");
    const electrical = recordPaths(recipe, events, { L: near(0, -0.5), R: [] });
    const acoustic = recordPaths(recipe, events, { L: near(0.0071, -0.2), R: [] });
    const session = {
      ...base,
      recordings: [
        { file: "two.wav", monitor: "nears", position: "mix", channel: "L" as const, fileChannel: 2, loopback: 1 },
      ],
    };
    const { results } = await analyseInMemory(session, {
      ...files,
      "two.wav": encodeWav([electrical, acoustic], 48_000, "float32"),
    });
    expect(results.measurements[0]!.arrival.polarity).toBe(1);
  });

  it("finds the same distortion whatever a microphone's gain is, since a constant cancels", async () => {
    const clean = single(0.2, 4);
    const bent = clean.map((x) => x + 0.8 * x * x);
    const session = {
      ...base,
      recordings: [{ file: "d.wav", monitor: "nears", position: "mix", channel: "L" as const }],
    };
    const all = { ...files, "d.wav": mono(bent), "mic.txt": text("20 6\n1000 6\n20000 6\n") };
    const plain = (await analyseInMemory(session, all)).results.measurements[0]!.distortion!;
    const calibrated = (await analyseInMemory({ ...session, microphone: { calibration: "mic.txt" } }, all)).results
      .measurements[0]!.distortion!;
    const k = plain.frequencyHz.findIndex((hz) => hz >= 500);
    expect(plain.harmonicsDb["2"]![k]).not.toBeNull();
    // Only the bin at 0 Hz is left as it is.
    expect(calibrated.harmonicsDb["2"]![k]).toBeCloseTo(plain.harmonicsDb["2"]![k]!, 4);
  });

  it("knows takes less well where they differ, and says so where the middle does not show it", async () => {
    const shelf = (samples: Float64Array): Float64Array =>
      filtered(samples, 48_000, (hz) => ({ re: hz > 6000 ? 0.5 : 1, im: 0 })).subarray(0, samples.length);
    const session = {
      ...base,
      recordings: [1, 2].map((take) => ({
        file: `t${take}.wav`,
        monitor: "nears",
        position: "mix",
        channel: "L" as const,
        take,
      })),
    };
    const { results } = await analyseInMemory(session, {
      ...files,
      "t1.wav": mono(single(0.2, 5)),
      "t2.wav": mono(shelf(single(0.2, 6))),
    });
    const { response, quality } = results.measurements[0]!;
    expect(quality.findings.map(({ code }) => code)).toContain("takes-differ");
    // Two levels 6 dB apart have a standard deviation of 4.3 dB, their mean 3 dB.
    expect(at(response.uncertaintyDb, response.frequencyHz, 10_000)).toBeGreaterThan(2.9);
    expect(at(response.uncertaintyDb, response.frequencyHz, 1000)).toBeLessThan(0.1);
  });

  it("states no uncertainty of levels where the noise is not known", async () => {
    const impulse = new Float64Array(24_000);
    impulse[1000] = 0.5;
    const session = {
      ...base,
      recordings: [
        { file: "ir.wav", monitor: "nears", position: "mix", channel: "L" as const, kind: "impulse" as const },
      ],
    };
    const { results } = await analyseInMemory(session, { ...files, "ir.wav": mono(impulse) });
    expect(results.measurements[0]!.response.uncertaintyDb.every((value) => value === null)).toBe(true);
    const ofRecordings = results.findings.filter(({ topic }) => topic === "recording");
    expect(ofRecordings.map(({ code }) => code)).toEqual(["noise-unknown"]);
  });

  it("gives the reason of every part that is missing without a mix position", async () => {
    const session = {
      ...base,
      positions: [{ id: "mix", kind: "near" as const }],
      recordings: [{ file: "mains.wav", monitor: "mains", position: "mix" }],
    };
    const { results } = await analyseInMemory(session, { ...files, "mains.wav": mono(reel()) });
    expect(results.monitors[0]!.responseReason).toBe("no-mix-position");
    expect(results.monitors[0]!.leftRightReason).toBe("no-mix-position");
  });
});

describe("a session with a recording that cannot be used", () => {
  const session = {
    ...base,
    recordings: [
      { file: "bad.wav", monitor: "mains", position: "mix" },
      { file: "good.wav", monitor: "nears", position: "mix", channel: "L" as const },
    ],
  };
  const other = makeSweepRecipe({ durationS: 2, sampleRate: 44_100 });
  const clipped = reel().map((value) => Math.max(-0.03, Math.min(0.03, value)) * 30);
  it.each([
    ["is missing", undefined, "unreadable", "The file does not exist."],
    ["is no sound file", text("hello"), "unreadable", "no sound file"],
    ["is silent", mono(new Float64Array(96_000)), "silent", "silent"],
    ["is clipped", mono(clipped), "clipped", "clipped"],
    [
      "has another sample rate",
      mono(recordPaths(other, other.events, { L: near(0.01, 0.1), R: [] }), 44_100),
      "sample-rate",
      "44100",
    ],
    ["holds no sweep", mono(whiteNoise(200_000, 3).map((value) => 0.01 * value)), "no-sweep", "not in the recording"],
    ["ends early", mono(reel().slice(0, 200_000)), "ended-early", "ends"],
  ])("because it %s names it and measures the rest", async (_, bytes, code, words) => {
    const all: Record<string, Uint8Array> = { ...files, "good.wav": mono(single(0.2)) };
    if (bytes) all["bad.wav"] = bytes;
    const { results, rejected } = await analyseInMemory(session, all);
    const finding = rejected.find((one) => one.code === code);
    expect(finding, JSON.stringify(rejected)).toBeDefined();
    expect(finding!.recordings).toEqual(["bad.wav"]);
    expect(finding!.message).toContain(words);
    expect(finding!.remedy).toBeTruthy();
    expect(results.measurements.map(({ id }) => id)).toContain("nears-L@mix");
    expect(resultsSchema.safeParse(results).success).toBe(true);
  });

  it("stops when the sweep recipe itself cannot be read, since nothing can be said then", async () => {
    await expect(analyseInMemory(session, { "sweep.json": text("{") })).rejects.toThrow("not valid JSON");
    await expect(analyseInMemory(session, { "sweep.json": text("{}") })).rejects.toThrow("cannot be used");
  });
});
