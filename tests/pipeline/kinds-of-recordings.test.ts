import { describe, expect, it } from "vitest";

import { labourHere, prepareInputs } from "../../src/pipeline.js";
import type { CapturedRecording } from "../../src/pipeline/capture-in-turn.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { sessionSchema } from "../../src/schema/session.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { otherSide, recordPaths, whiteNoise } from "../known-recording.js";
import { aiffFile, big, cafFile, flacFile } from "../recording/sound-files.js";
import { concat, pcmBytes, wavFile } from "../recording/wav-file.js";
import { analyseInMemory, memoryFiles, recipeFile, type SessionText, text } from "./in-memory-session.js";

/** The same sound in all the ways in which workstations and recorders write it. */

const recipe = makeSweepRecipe({ durationS: 1, startHz: 40, endHz: 18_000, leadS: 0.5, gapS: 0.5, tailS: 0.3 });
const { sampleRate } = recipe;
const path = (delayS: number, gain: number) => [{ delayS, gain }];

function noisy(samples: Float64Array, seed: number, level = 1e-4): Float64Array {
  const noise = whiteNoise(samples.length, seed);
  return samples.map((value, n) => value + level * noise[n]!);
}

/** Rounded to 16 bits, as all of the files hold it. */
const steps = (samples: Float64Array): number[] => Array.from(samples, (value) => Math.round(value * 32_768));
const sound = (values: readonly number[]): Float64Array => Float64Array.from(values, (step) => step / 32_768);

const reelSteps = steps(noisy(recordPaths(recipe, recipe.events, { L: path(0.006, 0.3), R: path(0.0065, 0.2) }), 1));
const reel = sound(reelSteps);
const one = (channel: "L" | "R", seed: number): Float64Array => {
  const paths = { L: path(0.006, 0.3), R: otherSide(path(0.0065, 0.2)) };
  return noisy(recordPaths(recipe, singleEvents(recipe, channel), paths), seed);
};

const base: SessionText = {
  schema: "carrywell/session/1",
  sweep: "sweep.json",
  monitors: [{ id: "mains", role: "main" }],
  positions: [{ id: "mix", kind: "mix" }],
  recordings: [],
};

async function capture(
  file: string,
  bytes: Uint8Array,
  more: Partial<SessionText["recordings"][number]> = {},
): Promise<CapturedRecording> {
  const recordings = [{ file, monitor: "mains", position: "mix", ...more }];
  const session = sessionSchema.parse({ ...base, recordings });
  const inputs = await prepareInputs(session, memoryFiles({ "sweep.json": recipeFile(recipe), [file]: bytes }));
  return labourHere(inputs).capture(session.recordings[0]!);
}

const figures = ({ takes }: CapturedRecording) =>
  takes.map(({ channel, impulse, arrivalInFileS, peakDbfs }) => ({ channel, arrivalInFileS, peakDbfs, ...impulse }));
const codes = ({ findings }: CapturedRecording): string[] => findings.map(({ code }) => code);
const wav16 = encodeWav([reel], sampleRate, "pcm16");
const plain = await capture("a.wav", wav16);

describe("One sound gives the same impulse responses, to the last bit,", () => {
  const turned = concat(reelSteps.map((step) => big(step < 0 ? step + 65_536 : step, 2)));
  const quiet = reel.map((value) => value / 1000);

  it("as WAV of 16 bits, to begin with", () => {
    expect(plain.takes.map(({ channel }) => channel)).toEqual(["L", "R"]);
    expect(plain.findings).toEqual([]);
    expect(plain.files.find(({ file }) => file === "a.wav")).toMatchObject({ encoding: "16-bit PCM", channels: 1 });
  });

  it.each([
    ["FLAC", "a.flac", flacFile({ channels: [reelSteps], bits: 16, block: 4096 }), {}],
    ["AIFF", "a.aif", aiffFile({ frames: reelSteps.length, data: turned }), {}],
    ["CAF", "a.caf", cafFile({ flags: 2, data: pcmBytes(reelSteps, 16) }), {}],
    ["32-bit float", "a.wav", encodeWav([reel], sampleRate, "float32"), {}],
    ["a file whose name ends in something else", "a.bin", wav16, {}],
    ["two equal channels", "a.wav", encodeWav([reel, reel], sampleRate, "pcm16"), {}],
    [
      "the left of two channels, the right one empty",
      "a.wav",
      encodeWav([reel, new Float64Array(reel.length)], sampleRate, "pcm16"),
      {},
    ],
    [
      "track 3 of 4",
      "a.wav",
      encodeWav(
        [quiet, one("L", 5).slice(0, reel.length), reel, quiet].map((track) => padded(track)),
        sampleRate,
        "pcm16",
      ),
      { fileChannel: 3 },
    ],
    [
      "track 2 of 2 in FLAC",
      "a.flac",
      flacFile({ channels: [reelSteps.map((step) => -step), reelSteps], bits: 16, block: 4096 }),
      { fileChannel: 2 },
    ],
    [
      "the one beside the loopback",
      "a.wav",
      encodeWav([reel, reel.map((value) => value / 2)], sampleRate, "pcm16"),
      { loopback: 2 },
    ],
  ])("as %s", async (_, file, bytes, more) => {
    const captured = await capture(file, bytes, more);
    const flights = figures(captured).map(({ polarity, ...rest }) => ({ ...rest, polarity: Math.abs(polarity) }));
    expect(flights).toEqual(figures(plain).map(({ polarity, ...rest }) => ({ ...rest, polarity: Math.abs(polarity) })));
    expect(captured.findings).toEqual([]);
  });

  function padded(track: Float64Array): Float64Array {
    const whole = new Float64Array(reel.length);
    whole.set(track.subarray(0, reel.length));
    return whole;
  }

  it("and different channels of which none is named are refused", async () => {
    const captured = await capture("a.wav", encodeWav([reel, reel.map((value) => value / 2)], sampleRate, "pcm16"));
    expect(captured.takes).toEqual([]);
    expect(captured.findings[0]!.message).toMatch(/2 channels and session\.json does not say which is the microphone/);
  });
});

describe("A pair of mono files that were recorded at once", () => {
  it("is two recordings, each with its own channel, and gives left and right of one monitor", async () => {
    const { results, rejected } = await analyseInMemory(
      {
        ...base,
        recordings: [
          { file: "Audio 1.L.wav", monitor: "mains", position: "mix", channel: "L" },
          { file: "Audio 1.R.wav", monitor: "mains", position: "mix", channel: "R" },
        ],
      },
      {
        "sweep.json": recipeFile(recipe),
        "Audio 1.L.wav": encodeWav([one("L", 2)], sampleRate, "pcm24"),
        "Audio 1.R.wav": encodeWav([one("R", 3)], sampleRate, "pcm24"),
      },
    );
    expect(rejected).toEqual([]);
    expect(results.measurements.map(({ id }) => id)).toEqual(["mains-L@mix", "mains-R@mix"]);
    // 0.3 against 0.2 is 3.52 dB; noise 70 dB below moves a mean over bands by less than a hundredth.
    expect(results.monitors[0]!.leftRight!.levelDb).toBeCloseTo(20 * Math.log10(1.5), 2);
    // The two files share no clock that is known: no arrival of one against the other is claimed.
    expect(results.monitors[0]!.leftRight!.arrivalS).toBeNull();
  });
});

describe("A recorder that stopped before it wrote the length", () => {
  it.each([0, 0xffff_ffff])(
    "(%i in its place) is read as far as the file goes, and it is said",
    async (claimedBytes) => {
      const captured = await capture("a.wav", wavFile({ data: pcmBytes(reelSteps, 16), claimedBytes }));
      expect(figures(captured)).toEqual(figures(plain));
      expect(captured.findings).toMatchObject([{ code: "length-from-file", severity: "info", unit: "s" }]);
      expect(captured.findings[0]!.value).toBeCloseTo(reel.length / sampleRate, 9);
    },
  );
});

describe("A long recording", () => {
  // Seven seconds of it, again and again: sums of twelve numbers for each of millions of samples take longer than the search.
  const hiss = whiteNoise(7 * sampleRate, 4);

  /** Two and a half minutes of a quiet room, with the reel at some places in it. */
  function longRecording(...places: readonly number[]): Float64Array {
    const samples = Float64Array.from({ length: 150 * sampleRate }, (_, n) => 1e-4 * hiss[n % hiss.length]!);
    for (const placeS of places) {
      const start = Math.round(placeS * sampleRate);
      for (let n = 0; n < reel.length; n++) samples[start + n]! += reel[n]!;
    }
    return samples;
  }
  const captureLong = async (samples: Float64Array): Promise<CapturedRecording> =>
    capture("long.wav", encodeWav([samples], sampleRate, "float32"));

  it("gives the figures of the reel in it, with times in the whole file", async () => {
    const captured = await captureLong(longRecording(101.7));
    expect(codes(captured)).toEqual(["long-recording"]);
    expect(captured.findings[0]).toMatchObject({ severity: "info", value: 150 });
    expect(captured.findings[0]!.message).toMatch(/lasts 2 min 30 s; what was played begins at 1 min 4\d s/);
    expect(captured.takes.map(({ channel }) => channel)).toEqual(["L", "R"]);
    for (const [n, take] of captured.takes.entries()) {
      // A whole number of samples later; other noise, 70 dB below, moves an arrival by well under a sample.
      expect(take.arrivalInFileS! - plain.takes[n]!.arrivalInFileS!).toBeCloseTo(101.7, 5);
      expect(take.impulse.samples.length).toBeLessThan(20 * sampleRate);
    }
  });

  // At the file's ends, and where one window of the search ends and another begins.
  it.each([0, 30, 33, 36, 145.5])("has its reel found at %f s", async (placeS) => {
    const captured = await captureLong(longRecording(placeS));
    expect(captured.takes.map(({ channel }) => channel)).toEqual(["L", "R"]);
    expect(captured.takes[0]!.arrivalInFileS! - plain.takes[0]!.arrivalInFileS!).toBeCloseTo(placeS, 5);
  });

  it("with several reels in it uses the first, and warns with their places", async () => {
    const captured = await captureLong(longRecording(20, 70.5, 110));
    expect(codes(captured)).toEqual(["long-recording", "several-reels"]);
    expect(captured.findings[1]).toMatchObject({ severity: "warning", value: 3 });
    expect(captured.findings[1]!.message).toMatch(/3 times, at 21\.\d s, 1 min 12 s and 1 min 51 s/);
    expect(captured.takes[0]!.arrivalInFileS! - plain.takes[0]!.arrivalInFileS!).toBeCloseTo(20, 5);
  });

  it("in which nothing was played is refused as a short one is", async () => {
    expect(codes(await captureLong(longRecording()))).toEqual(["no-sweep"]);
    expect(codes(await captureLong(new Float64Array(150 * sampleRate)))).toEqual(["silent"]);
  });

  it("that should be an impulse response is refused", async () => {
    const bytes = encodeWav([new Float64Array(2 ** 24 + 1)], 8000, "pcm16");
    const captured = await capture("ir.wav", bytes, { kind: "impulse", channel: "L" });
    expect(captured.findings[0]!.message).toMatch(/lasts 35\.0 minutes; up to 35\.0 are read/);
  });
});

describe("The microphone's table", () => {
  const table = "20 0\n1000 0\n16000 3\n20000 4\n";
  const files = { "sweep.json": recipeFile(recipe), "a.wav": wav16 };
  const analysed = async (microphone: SessionText["microphone"], tables: Record<string, string>) =>
    analyseInMemory(
      { ...base, microphone, recordings: [{ file: "a.wav", monitor: "mains", position: "mix" }] },
      { ...files, ...Object.fromEntries(Object.entries(tables).map(([name, words]) => [name, text(words)])) },
    );

  it("for another angle than the microphone stood at is a warning, for the same or none it is not", async () => {
    const found = async (orientationDeg?: number): Promise<string[]> => {
      const microphone = orientationDeg === undefined ? {} : { orientationDeg };
      const { results } = await analysed({ calibration: "mic_0deg.txt", ...microphone }, { "mic_0deg.txt": table });
      return results.findings.filter(({ code }) => code === "calibration-suspect").map(({ message }) => message);
    };
    expect(await found(90)).toEqual([
      'The microphone\'s table "mic_0deg.txt" is for 0°, but the microphone stood at 90°. Levels in the treble are not to be trusted.',
    ]);
    expect(await found(0)).toEqual([]);
    expect(await found()).toEqual([]);
  });

  it("is the one for the microphone's angle where there are several", async () => {
    const level = async (orientationDeg: number): Promise<number> => {
      const calibrations = [
        { file: "0.txt", orientationDeg: 0 },
        { file: "90.txt", orientationDeg: 90 },
      ];
      const { results } = await analysed(
        { calibrations, orientationDeg },
        { "0.txt": "20 2\n20000 2\n", "90.txt": "20 -1\n20000 -1\n" },
      );
      const { frequencyHz, levelDb } = results.measurements[0]!.response;
      return levelDb[frequencyHz.findIndex((hz) => hz >= 1000)]!;
    };
    // The same recording through tables of +2 and -1 dB.
    expect((await level(90)) - (await level(0))).toBeCloseTo(3, 9);
  });
});
