import { describe, expect, it } from "vitest";
import { InputError } from "../../src/errors.js";
import type { Jump } from "../../src/impulse/jumps.js";
import { fromError } from "../../src/pipeline/findings.js";
import type { Noticed } from "../../src/pipeline/noticed.js";
import { refuseDropouts } from "../../src/pipeline/refuse-dropouts.js";
import { whiteNoise } from "../known-recording.js";

const RATE = 48_000;
const GROWTH_S = 0.6;

/** Noise that rises and falls once in 5 s, so that only the middle is near its peak. */
function recording(): Float64Array {
  return whiteNoise(10 * RATE, 1).map((value, n) => 0.05 * value * (1 + Math.sin((2 * Math.PI * n) / (5 * RATE))));
}

function sweep(zeroS: number, jumps: readonly (Jump | number)[], more: Partial<Noticed> = {}): Noticed {
  return {
    spanS: [zeroS, zeroS + 4],
    zeroS,
    decayS: 0.4,
    sweepDb: -20,
    jumps: jumps.map((one) => (typeof one === "number" ? { sample: Math.round(one * RATE), persists: true } : one)),
    strange: [],
    broken: null,
    isDistorted: () => false,
    ...more,
  };
}

/** The finding for which the recording is refused; null when it is not. */
function refused(samples: Float64Array, ...noticed: readonly Noticed[]) {
  try {
    refuseDropouts("a.wav", { samples, sampleRate: RATE }, noticed, GROWTH_S);
    return null;
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return fromError(error, "a.wav");
  }
}

describe("a recording in which samples may be missing", () => {
  it("is kept where nothing breaks off, or only for a moment", () => {
    expect(refused(recording(), sweep(0, []), sweep(5, []))).toBeNull();
    expect(refused(recording(), sweep(0, [{ sample: 2 * RATE, persists: false }]), sweep(5, []))).toBeNull();
  });

  it("is refused as one with a dropout where one sweep goes on at another phase, at that place", () => {
    expect(refused(recording(), sweep(0, [2.345]), sweep(5, []))).toMatchObject({ code: "dropout", atS: 2.345 });
  });

  it("is refused where a converter handed on one value for a millisecond", () => {
    const samples = recording();
    const at = Math.round(3.7 * RATE);
    samples.fill(0, at, at + 48);
    const found = refused(samples, sweep(0, []), sweep(5, []));
    expect(found).toMatchObject({ code: "dropout", value: 48 });
    expect(found!.atS).toBeCloseTo(3.7, 4);
  });

  it("is refused as processed where the sweep leaps at one note of both sweeps: no buffer is lost twice at 560 Hz", () => {
    expect(refused(recording(), sweep(0, [2]), sweep(5, [7.05]))).toMatchObject({ code: "processed" });
    // An octave apart: growth times ln 2 is 0.42 s.
    expect(refused(recording(), sweep(0, [2]), sweep(5, [7.42]))).toMatchObject({ code: "dropout" });
  });

  it("is refused as processed where what is strange goes on between the leaps, as behind a codec", () => {
    const strange = Array.from({ length: 12 }, (_, n) => ({
      atS: 1 + 0.2 * n,
      bandHz: 1000,
      excessDb: 30,
      reSweepDb: -30,
    }));
    expect(refused(recording(), sweep(0, [2], { strange }), sweep(5, []))).toMatchObject({ code: "processed" });
  });

  it("is kept where the edge is that of a crest cut off, or of what clips all along: those have names of their own", () => {
    const samples = recording();
    const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    samples[2 * RATE + 3] = peak;
    expect(refused(samples, sweep(0, [2]), sweep(5, []))).toBeNull();
    expect(refused(recording(), sweep(0, [2], { isDistorted: () => true }), sweep(5, []))).toBeNull();
  });
});
