import { describe, expect, it } from "vitest";
import { synthesiseMarker } from "../../src/dsp/sweep-signal.js";
import type { FoundEvent } from "../../src/impulse/event.js";
import { markerLikeness } from "../../src/impulse/marker-likeness.js";
import { noiseDensity } from "../../src/impulse/noise.js";
import type { ImpulseResponse } from "../../src/model.js";
import { makeSweepRecipe } from "../../src/sweep/recipe.js";
import { whiteNoise } from "../known-recording.js";

const recipe = makeSweepRecipe();
const RATE = recipe.sampleRate;
const PLACES = [2 * RATE, 5 * RATE] as const;
/** Direct sound and one reflection of half of it. */
const ROOM = [
  [0, 1],
  [300, 0.5],
] as const;

type Paths = readonly (readonly [number, number])[];

function impulse(): ImpulseResponse {
  const samples = new Float64Array(RATE);
  for (const [delay, gain] of ROOM) samples[4800 + delay] = gain;
  return { samples, sampleRate: RATE, arrivalSample: 4800, polarity: 1, sweptHz: [20, 20_000], noise: null };
}

/** Two markers through paths of their own, noise so far under them; recorded by an ideal clock. */
function likeness(first: Paths, second: Paths, noise = 1e-5, sweepAt = 3 * RATE) {
  const samples = whiteNoise(7 * RATE, 3).map((value) => noise * value);
  const marker = synthesiseMarker(recipe);
  [first, second].forEach((paths, n) => {
    for (const [delay, gain] of paths) marker.forEach((value, k) => (samples[PLACES[n]! + delay + k]! += gain * value));
  });
  const markers = PLACES.map((startSample): FoundEvent => ({
    event: { kind: "marker", channel: "L", atSample: startSample, samples: marker.length },
    startSample,
    clarityDb: null,
  }));
  const density = noiseDensity({ samples, sampleRate: RATE }, 0, RATE)!;
  const sweep = { atSample: 3 * RATE, arrivalSample: sweepAt };
  return markerLikeness({ samples, sampleRate: RATE }, impulse(), sweep, markers, recipe, density, 1);
}

describe("two markers and the response to the sweep between them", () => {
  it("are one sound through a room that stays the same", () => {
    const { unlikeDb, gainDb } = likeness(ROOM, ROOM)!;
    // Noise of 1e-5 under a sine of 0.25, in a fifth of the band.
    expect(unlikeDb).toBeLessThan(-60);
    expect(Math.abs(gainDb!)).toBeLessThan(0.01);
  });

  it("stand where their distance from the sweep puts them, but where samples were lost between", () => {
    expect(Math.abs(likeness(ROOM, ROOM)!.lateS)).toBeLessThan(1e-6);
    // The sweep comes 64 samples early: behind the first marker they were lost.
    expect(likeness(ROOM, ROOM, 1e-5, 3 * RATE - 64)!.lateS).toBeCloseTo(64 / RATE, 6);
    const late = ROOM.map(([delay, gain]) => [delay + 30, gain] as const);
    expect(likeness(ROOM, late)!.lateS).toBeCloseTo(30 / RATE, 6);
  });

  it("tell by how much a gain was turned between the markers", () => {
    const louder = ROOM.map(([delay, gain]) => [delay, 10 ** (0.8 / 20) * gain] as const);
    expect(likeness(ROOM, louder)!.gainDb).toBeCloseTo(0.8, 2);
  });

  it("are unlike by what one has and the other has not: a copy of 0.7 that moved leaves 1 - 1/(1 + 0.49)^2 or so", () => {
    const copy = (delay: number): Paths => [...ROOM, [delay, 0.7]];
    const { unlikeDb, gainDb } = likeness(copy(60), copy(190))!;
    // Over the room's own reflection, the share of the copy is 0.49 of both; combs do not average out to the last.
    expect(Math.abs(unlikeDb - 10 * Math.log10(1 - 1 / 1.49 ** 2))).toBeLessThan(1.5);
    expect(gainDb).toBeNull();
  });

  it("say nothing of a gain when somebody came near for one marker, nor are they strangers then", () => {
    const { unlikeDb, gainDb } = likeness([...ROOM, [130, 0.31]], ROOM)!;
    expect(gainDb).toBeNull();
    expect(unlikeDb).toBeLessThan(-8);
  });

  it("are not compared where noise is within 20 dB of them", () => {
    expect(likeness(ROOM, ROOM, 0.1)).toBeNull();
  });
});
