import { describe, expect, it } from "vitest";
import { fromError } from "../../src/pipeline/findings.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { singleEvents } from "../../src/sweep/timeline.js";
import { capture, recordPaths } from "../known-recording.js";
import { SHORT_SWEEP } from "../simulate/test-rooms.js";

const recipe = makeSweepRecipe(SHORT_SWEEP);
const RATE = recipe.sampleRate;
const LEAD_S = 0.3;
const FLIGHT_S = 0.004;
const APART_S = 0.0005;
const [marker, left, right] = recipe.events as [(typeof recipe.events)[0], ...typeof recipe.events];
const AFTER_MARKER = marker.atSample + marker.samples + 0.2 * RATE;
const IN_GAP = left!.atSample + left!.samples + 0.3 * RATE;
const AFTER_RIGHT = right!.atSample + right!.samples + 0.3 * RATE;

/** Left and right half a millisecond apart, on a clock that is off by 40 ppm; a workstation's buffer of so many samples lost. */
function recorded(at: number, count: number) {
  const paths = {
    L: [
      { delayS: FLIGHT_S, gain: 0.3 },
      { delayS: FLIGHT_S + 0.003, gain: 0.1 },
    ],
    R: [
      { delayS: FLIGHT_S + APART_S, gain: 0.3 },
      { delayS: FLIGHT_S + 0.005, gain: 0.1 },
    ],
  };
  const whole = recordPaths(recipe, recipe.events, paths, { ppm: 40, leadS: LEAD_S });
  const from = Math.round(at + LEAD_S * RATE);
  return Float64Array.from({ length: whole.length - count }, (_, n) => whole[n < from ? n : n + count]!);
}

function codeOf(samples: Float64Array): string | null {
  try {
    capture(recipe, recipe.events, samples);
    return null;
  } catch (error) {
    return fromError(error, "known.wav").code;
  }
}

describe("a small buffer that was lost in a silence", () => {
  it("is none where the clock is merely off: left and right are as far apart as they are", () => {
    const [a, b] = capture(recipe, recipe.events, recorded(IN_GAP, 0)).takes;
    expect(Math.abs(b!.arrivalPlayedS! - a!.arrivalPlayedS! - APART_S)).toBeLessThan(5e-6);
  });

  it.each([
    ["behind the first marker", AFTER_MARKER],
    ["between the sweeps", IN_GAP],
    ["before the last marker", AFTER_RIGHT],
  ])(
    "is told by the distance from a marker to the sweep, %s: read as a clock, left would be moved against right",
    (_, at) => {
      for (const count of [32, 64, 128, -64]) expect(codeOf(recorded(at, count))).toBe("dropout");
    },
  );
});

describe("a large piece that was lost", () => {
  const at40Hz = left!.atSample + (recipe.fadeInS + recipe.growthS * Math.LN2) * RATE;
  it.each([
    ["behind the first marker", AFTER_MARKER],
    ["between the right sweep and the last marker", AFTER_RIGHT],
    ["at the sweep's lowest notes, where few bands tell", at40Hz],
  ])("is told by the marker that is not where it should be, %s", (_, at) => {
    expect(codeOf(recorded(at, 0.1 * RATE))).toBe("dropout");
  });

  it("cannot be told from another file's pause: both are named", () => {
    const own = makeSweepRecipe({ ...SHORT_SWEEP, gapS: 1 });
    const other = makeSweepRecipe({ ...SHORT_SWEEP, gapS: 0.8 });
    const path = [{ delayS: FLIGHT_S, gain: 0.3 }];
    const samples = recordPaths(other, singleEvents(other, "L"), { L: path, R: [] });
    const refused = () => capture(own, singleEvents(own, "L"), samples, { channel: "L" });
    expect(refused).toThrow(/\(200 ms\).* Or another file of the same sweep was played, with other pauses/);
  });

  it("is none where the recording merely ends before the last marker", () => {
    expect(codeOf(recorded(0, 0).subarray(0, right!.atSample + right!.samples + 0.8 * RATE))).toBeNull();
  });
});
