import { describe, expect, it } from "vitest";

import { loudnessMeter } from "../../src/translation/programme-loudness.js";
import { loudnessOf, PROGRAMMES_3341 } from "./published-programmes.js";

/** Noise that any machine makes alike. */
function noise(length: number): Float64Array {
  let state = 1;
  return Float64Array.from({ length }, () => {
    state = (1_103_515_245 * state + 12_345) % 2 ** 31;
    return state / 2 ** 30 - 1;
  });
}

describe("Programme loudness after ITU-R BS.1770", () => {
  it.each([48_000, 44_100, 44_056, 96_000, 192_000, 22_050, 16_000])(
    "of a full-scale tone of 997 Hz in one channel is -3.01 LUFS at %i Hz",
    (sampleRate) => {
      const { integrated, mostMomentary, mostShortTerm } = loudnessOf([[[0], 5]], 997, sampleRate);
      // The recommendation's figure to its last digit; the bilinear shelf differs most at the lowest rate.
      const allowed = sampleRate < 40_000 ? 0.1 : 0.01;
      expect(Math.abs(integrated! + 3.01)).toBeLessThan(allowed);
      // The high pass settles within the first blocks and overshoots by less than this.
      expect(Math.abs(mostMomentary! + 3.01)).toBeLessThan(0.1);
      expect(Math.abs(mostShortTerm! + 3.01)).toBeLessThan(0.1);
    },
  );

  it.each(PROGRAMMES_3341)("of EBU Tech 3341 $name is the published one", ({ passages, integrated, steady }) => {
    const measured = loudnessOf(passages, 1000);
    // The case's own tolerance.
    expect(Math.abs(measured.integrated! - integrated)).toBeLessThanOrEqual(0.1);
    if (!steady) return;
    expect(Math.abs(measured.mostMomentary! - integrated)).toBeLessThanOrEqual(0.1);
    expect(Math.abs(measured.mostShortTerm! - integrated)).toBeLessThanOrEqual(0.1);
  });

  it("moves with the gain, decibel for decibel", () => {
    const loudness = (gain: number): number => {
      const meter = loudnessMeter(48_000, [1]);
      meter.push([noise(96_000).map((value) => gain * value)]);
      return meter.result().integrated!;
    };
    // Roundings of a sum of 96 000 squares.
    expect(loudness(0.1) - loudness(0.2)).toBeCloseTo(20 * Math.log10(0.5), 9);
  });

  it("does not depend on the pieces in which the programme arrives", () => {
    const sound = noise(100_000);
    const whole = loudnessMeter(44_100, [1, 1]);
    whole.push([sound, sound]);
    const pieces = loudnessMeter(44_100, [1, 1]);
    for (let from = 0; from < sound.length; from += 777) {
      const piece = sound.subarray(from, from + 777);
      pieces.push([piece, piece]);
    }
    pieces.push([[], []]);
    // Sums of the same numbers in other groups.
    expect(pieces.result().integrated).toBeCloseTo(whole.result().integrated!, 9);
  });

  it("leaves out what is silent: a long pause changes nothing", () => {
    const tone = loudnessOf([[[-20], 10]], 1000).integrated!;
    const withPause = loudnessOf(
      [
        [[-20], 10],
        [[-Infinity], 60],
      ],
      1000,
    ).integrated!;
    // Three of some hundred blocks hold part of the tone and part of the pause.
    expect(Math.abs(withPause - tone)).toBeLessThan(0.1);
  });

  it("is not known where nothing is loud or long enough", () => {
    const unknown = { integrated: null, mostMomentary: null, mostShortTerm: null };
    expect(loudnessMeter(48_000, [1]).result()).toEqual(unknown);
    const silent = loudnessMeter(48_000, [1]);
    silent.push([new Float64Array(480_000)]);
    expect(silent.result()).toEqual(unknown);
    const short = loudnessMeter(48_000, [1]);
    short.push([noise(19_000)]);
    expect(short.result()).toEqual(unknown);
  });

  it("leaves out a channel without weight, and one more channel adds its power", () => {
    const sound = noise(96_000);
    const measure = (weights: readonly number[]): number => {
      const meter = loudnessMeter(48_000, weights);
      meter.push(weights.map(() => sound));
      return meter.result().integrated!;
    };
    expect(measure([1, 0])).toBe(measure([1]));
    // Roundings only: the same powers twice.
    expect(measure([1, 1]) - measure([1])).toBeCloseTo(10 * Math.log10(2), 9);
  });

  it("is refused for channels that do not fit", () => {
    expect(() => loudnessMeter(48_000, [])).toThrow(RangeError);
    expect(() => loudnessMeter(4000, [1])).toThrow(RangeError);
    expect(() => {
      loudnessMeter(48_000, [1]).push([[], []]);
    }).toThrow(RangeError);
    expect(() => {
      loudnessMeter(48_000, [1, 1]).push([[0], []]);
    }).toThrow(RangeError);
  });
});
