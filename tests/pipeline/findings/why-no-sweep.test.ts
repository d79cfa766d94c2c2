import { describe, expect, it } from "vitest";
import type { Signal } from "../../../src/model.js";
import { headerIsWrong, type NamedPlayed, whyNoSweep } from "../../../src/pipeline/findings/why-no-sweep.js";
import { makeSweepRecipe } from "../../../src/sweep/recipe.js";
import { whiteNoise } from "../../known-recording.js";
import { entry, playedBy, recipe, record, told } from "./sweep-questions.js";

const longer = makeSweepRecipe({ durationS: 3, leadS: 0.8, gapS: 0.7, tailS: 0.3 });
const why = (signal: Signal, otherSweeps: readonly NamedPlayed[] = []) =>
  told(whyNoSweep({ ...playedBy(recipe), recording: entry, signal, otherSweeps }));

describe("a recording in which the session's sweep is not heard", () => {
  it("holds none where it holds noise", () => {
    const samples = whiteNoise(6 * recipe.sampleRate, 1).map((value) => 0.05 * value);
    expect(why({ samples, sampleRate: recipe.sampleRate })).toMatchObject({ code: "no-sweep", severity: "reject" });
  });

  it("holds another of the session's sweeps, whose file is named", () => {
    const found = why(record(longer), [playedBy(longer, "longer.json")]);
    expect(found.code).toBe("wrong-sweep");
    expect(found.message).toContain("longer.json");
  });

  it("holds a sweep that nobody named, and says from where to where it goes and for how long", () => {
    const found = why(record(longer));
    expect(found.code).toBe("wrong-sweep");
    // Its fades, a third of an octave at the bottom and less at the top, are heard with it: 3 s times 7.3 / 6.9.
    expect(found.message).toMatch(/from about 1[5-9] Hz to 2[0-4][\d.]* kHz in 3\.[1-4] s/);
  });

  it.each([
    ["44.1 kHz taken for 48 kHz", 44.1 / 48],
    ["48 kHz taken for 44.1 kHz", 48 / 44.1],
  ])("was recorded at another rate: %s", (name, ratio) => {
    const found = why(record(recipe, recipe.events, 1e6 * (ratio - 1)));
    expect(found.code).toBe("rate-mismatch");
    expect(found.message).toContain(name);
    // A usual ratio is told as itself.
    expect(found.value).toBeCloseTo(ratio, 9);
  });

  it("was begun too late where the sweep is there from the file's first sample on", () => {
    const whole = record(recipe, recipe.events.slice(1, 2));
    const from = recipe.events[1]!.atSample + Math.round(1.1 * recipe.sampleRate);
    expect(why({ ...whole, samples: whole.samples.subarray(from) }).code).toBe("started-late");
  });
});

describe("a file whose header may name a wrong rate", () => {
  it("does so where its sound is the sweep at the sweep's own rate, and not where it is another", () => {
    const ask = (signal: Signal) => headerIsWrong({ ...playedBy(recipe), recording: entry, signal, otherSweeps: [] });
    expect(told(ask({ ...record(recipe), sampleRate: 44_100 }))).toMatchObject({
      code: "rate-mismatch",
      limit: 48_000,
    });
    expect(ask({ ...record(longer), sampleRate: 44_100 })).toBeNull();
  });
});
