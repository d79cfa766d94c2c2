import { describe, expect, it } from "vitest";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { capture, recordPaths, whiteNoise } from "../known-recording.js";

const recipe = makeSweepRecipe({ durationS: 2, gapS: 0.8, leadS: 0.5, tailS: 0.5 });
const path = [{ delayS: 0.007, gain: 0.2 }];
const reel = (leadS: number): Float64Array => recordPaths(recipe, recipe.events, { L: path, R: path }, { leadS });

describe("the sweep search", () => {
  it.each([0, 0.013, 1.7, 9.3])("finds both sweeps of a reel that was started %d s into the recording", (leadS) => {
    const { takes, findings } = capture(recipe, recipe.events, reel(leadS));
    expect(findings).toEqual([]);
    const sweeps = recipe.events.filter(({ kind }) => kind === "sweep");
    takes.forEach((take, k) => {
      const zeroS = (sweeps[k]!.atSample + recipe.fadeInS * recipe.sampleRate) / recipe.sampleRate;
      const lead = Math.round(leadS * recipe.sampleRate) / recipe.sampleRate;
      expect(Math.abs(take.arrivalInFileS! - (zeroS + 0.007 + lead))).toBeLessThan(1e-6);
    });
  });

  it.each(["L", "R", "both"] as const)("finds a single sweep of %s whatever loudspeaker played it", (channel) => {
    const events = singleEvents(recipe, channel === "R" ? "R" : "L");
    const samples = recordPaths(recipe, events, { L: path, R: path }, { leadS: 2.2 });
    const { takes } = capture(recipe, events, samples, { channel });
    expect(takes.map((take) => take.channel)).toEqual([channel]);
  });

  it("finds it 10 dB under the noise", () => {
    const samples = reel(1);
    const noise = whiteNoise(samples.length, 5);
    const sweep = 0.2 * 10 ** (-12 / 20) * Math.SQRT1_2;
    for (let n = 0; n < samples.length; n++) samples[n]! += 10 ** 0.5 * sweep * noise[n]!;
    expect(capture(recipe, recipe.events, samples).takes).toHaveLength(2);
  });

  it("does not find another sweep, nor noise, nor a tone", () => {
    const other = makeSweepRecipe({ durationS: 3, gapS: 0.8, leadS: 0.5, tailS: 0.5 });
    const noise = whiteNoise(400_000, 8).map((value) => 0.05 * value);
    const tone = Float64Array.from({ length: 400_000 }, (_, n) => 0.2 * Math.sin(0.13 * n));
    const foreign = recordPaths(other, other.events, { L: path, R: path });
    for (const samples of [noise, tone]) {
      expect(() => capture(recipe, recipe.events, samples)).toThrow("The session's sweep is not in the recording.");
    }
    expect(() => capture(recipe, recipe.events, foreign)).toThrow("Another sweep than the session's was played");
  });

  it("says how much is missing when the recorder started late or stopped early, and uses the other side", () => {
    const whole = reel(0.2);
    const first = recipe.events.find(({ kind }) => kind === "sweep")!;
    const late = capture(recipe, recipe.events, whole.slice(first.atSample + 24_000));
    expect(late.takes.map(({ channel }) => channel)).toEqual(["R"]);
    expect(late.findings.map(({ code, severity }) => [code, severity])).toContainEqual(["started-late", "reject"]);
    // It began 0.5 s after the first sweep's place in the reel, which the file has 0.207 s later.
    expect(late.findings.find(({ code }) => code === "started-late")!.value).toBeCloseTo(0.5 - 0.207, 2);

    const last = recipe.events.findLast(({ kind }) => kind === "sweep")!;
    const early = capture(recipe, recipe.events, whole.slice(0, last.atSample + last.samples - 20_000));
    expect(early.takes.map(({ channel }) => channel)).toEqual(["L"]);
    const ended = early.findings.find(({ code }) => code === "ended-early")!;
    expect(ended.severity).toBe("reject");
    expect(ended.value).toBeCloseTo(20_000 / 48_000 + 0.207, 2);
  });

  it("names the loudspeaker that did not play", () => {
    const silentRight = recordPaths(recipe, recipe.events, { L: path, R: [] });
    const { takes, findings } = capture(recipe, recipe.events, silentRight);
    expect(takes.map(({ channel }) => channel)).toEqual(["L"]);
    expect(findings.map(({ code, message }) => [code, message])).toEqual([
      ["no-sweep", "The right sweep of the reel is not in the recording."],
    ]);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])(
    "does not guess which loudspeaker it heard when the left one is dead, seed %d",
    (seed) => {
      const deadLeft = recordPaths(recipe, recipe.events, { L: [], R: path }, { leadS: 6 });
      const noise = whiteNoise(deadLeft.length + 384_000, seed);
      const samples = noise.map((value, n) => (deadLeft[n] ?? 0) + 2e-4 * value);
      expect(() => capture(recipe, recipe.events, samples)).toThrow("nothing tells which loudspeaker");
    },
  );

  it("warns of a tail in which low frequencies cannot die away, instead of looking for knocks there", () => {
    const samples = reel(0.5);
    const last = recipe.events.findLast(({ kind }) => kind === "sweep")!;
    const { takes, findings } = capture(
      recipe,
      recipe.events,
      samples.slice(0, last.atSample + last.samples + 24_000 + 5000),
    );
    const short = findings.filter(({ code, severity }) => code === "ended-early" && severity === "warning");
    expect(short).toHaveLength(1);
    expect(short[0]!.value).toBeGreaterThan(-0.2);
    expect(takes.find(({ channel }) => channel === "R")!.residual).toBeNull();
    expect(findings.map(({ code }) => code)).toContain("clock-unknown");
  });

  it.each([0.02, 0.05])("takes nothing from a marker of which only the first %d s were recorded", (keptS) => {
    const samples = reel(0.5);
    const end = 24_000 + recipe.events.at(-1)!.atSample + Math.round(keptS * 48_000);
    const { takes, findings } = capture(recipe, recipe.events, samples.slice(0, end));
    expect(takes).toHaveLength(2);
    expect(findings.map(({ code }) => code)).toContain("clock-unknown");
  });

  it("does not take a workstation's silence for a quiet room, and looks at the end of the file instead", () => {
    const samples = reel(0.5);
    const noise = whiteNoise(samples.length + 192_000, 31);
    const noisy = noise.map((value, n) => (samples[n] ?? 0) + 1e-4 * value);
    const first = recipe.events[0]!;
    noisy.fill(0, 0, first.atSample);
    const { takes, findings } = capture(recipe, recipe.events, noisy);
    expect(findings.map(({ code }) => code)).toEqual([]);
    expect(takes[0]!.residual!.worstExcessDb).toBeLessThan(12);
    const cut = capture(recipe, recipe.events, noisy.slice(0, samples.length - 24_000));
    expect(cut.findings.map(({ code }) => code)).toEqual(["no-silence"]);
    expect(cut.takes[0]!.residual).toBeNull();
  });
});

describe("a recording that cannot be used", () => {
  it.each([
    ["silent", (samples: Float64Array) => samples.fill(0), "silent"],
    ["clipped", (samples: Float64Array) => samples.map((x) => Math.max(-0.9, Math.min(0.9, 40 * x))), "clipped"],
  ])("is rejected as %s", (_, spoil, word) => {
    expect(() => capture(recipe, recipe.events, spoil(reel(0.3)))).toThrow(word);
  });
});
