import { describe, expect, it } from "vitest";
import { findEvents } from "../../../src/impulse/find.js";
import type { Recording, Signal } from "../../../src/model.js";
import { wrongTimeline } from "../../../src/pipeline/findings/wrong-timeline.js";
import { makeSweepRecipe } from "../../../src/sweep/recipe.js";
import { singleEvents } from "../../../src/sweep/timeline.js";
import { entry, playedBy, recipe, record, told } from "./sweep-questions.js";

/** What is wrong with when sweeps were heard; null for nothing. */
function wrong(signal: Signal, recording: Recording = entry, timeline = recipe.events) {
  const question = { ...playedBy(recipe), timeline, recording, signal };
  const misfit = wrongTimeline(question, findEvents(signal, question.excitation, timeline, question.marker));
  return misfit && told(misfit);
}

describe("the sweeps of a recording", () => {
  it("stand where the reel has them, on any clock that merely drifts", () => {
    expect(wrong(record(recipe))).toBeNull();
    expect(wrong(record(recipe, recipe.events, 300))).toBeNull();
  });

  it("are merely missing where one loudspeaker did not play: that has a name of its own", () => {
    expect(wrong(record(recipe, recipe.events.slice(0, 2)))).toBeNull();
  });

  it("are further apart than the session's where another reel of the same sweeps was played", () => {
    const wider = makeSweepRecipe({ durationS: 2, leadS: 0.8, gapS: 1, tailS: 0.3 });
    const found = wrong(record(wider))!;
    expect(found.code).toBe("wrong-sweep");
    const [heard, own] = [wider, recipe].map(({ events, sampleRate }) => {
      const [left, right] = events.filter(({ kind }) => kind === "sweep");
      return ((right!.atSample - left!.atSample) / sampleRate).toFixed(2);
    });
    expect(found.message).toContain(`${heard} s apart`);
    expect(found.message).toContain(`${own} s`);
  });

  it.each([
    ["were lost", -100],
    ["came twice", 100],
    // More is not lost at once.
    [null, 700],
  ])("are apart by another distance where something in the gap was %s (%i ms)", (happened, offMs) => {
    const moved = recipe.events.map((event, n) => ({ ...event, atSample: event.atSample + (n < 2 ? 0 : 48 * offMs) }));
    const { code, message } = wrong(record(recipe, moved))!;
    expect(code).toBe("wrong-sweep");
    expect(/between them about (\d+) ms (.*)\./.exec(message)?.slice(1) ?? null).toEqual(happened && ["100", happened]);
  });

  it("are as far apart as another rate makes all of the reel last", () => {
    const found = wrong(record(recipe, recipe.events, 15_000))!;
    expect(found.code).toBe("rate-mismatch");
    // Distances are read to a millisecond or two in seconds.
    expect(Math.abs(found.value! - 1.015)).toBeLessThan(1e-3);
  });

  it("are more than one where the entry names one loudspeaker", () => {
    const found = wrong(record(recipe), { ...entry, channel: "L" }, singleEvents(recipe, "L"))!;
    expect(found.code).toBe("wrong-sweep");
    expect(found.message).toContain("2 sweeps where one should be");
  });

  it("is one between two markers where the file for one loudspeaker was played under the name of a reel", () => {
    const found = wrong(record(recipe, singleEvents(recipe, "L")))!;
    expect(found.code).toBe("wrong-sweep");
    expect(found.message).toContain("the file for one loudspeaker");
  });
});
