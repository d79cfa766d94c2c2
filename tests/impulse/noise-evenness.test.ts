import { describe, expect, it } from "vitest";
import { unevennessDb } from "../../src/impulse/noise-evenness.js";
import { pinkNoise, whiteNoise } from "../known-recording.js";

const RATE = 48_000;
const signal = (samples: Float64Array) => ({ samples, sampleRate: RATE });
/** Steady noise by theory, 10 lg(ln 10 / ln 2). */
const STEADY_DB = 10 * Math.log10(Math.LN10 / Math.LN2);
/**
 * The softer half of 280 frames gives a tenth to 14 of them, so each frequency is off by 0.9 dB or so; the median of 208 frequencies by a
 * tenth of that, and by a few hundredths for choosing soft frames.
 */
const TOLERANCE_DB = 0.25;

describe("the loud moments of a silence", () => {
  it.each([
    ["white", whiteNoise(3 * RATE, 1)],
    ["pink", pinkNoise(3 * RATE, 2, RATE)],
  ])("stand 5.2 dB over the usual level of %s noise", (_, samples) => {
    expect(Math.abs(unevennessDb(signal(samples), 0, samples.length)! - STEADY_DB)).toBeLessThan(TOLERANCE_DB);
  });

  it("stand no higher for somebody who speaks during a third of it", () => {
    const samples = whiteNoise(3 * RATE, 3);
    for (let n = RATE; n < 2 * RATE; n++) samples[n]! *= 30;
    expect(Math.abs(unevennessDb(signal(samples), 0, samples.length)! - STEADY_DB)).toBeLessThan(TOLERANCE_DB);
  });

  it("stand far higher where single moments of each frequency were let through", () => {
    // Tones of an eighth of a second come and go at places that nothing orders, 20 dB over what is left of the noise.
    const samples = whiteNoise(3 * RATE, 4).map((value) => 1e-3 * value);
    const places = whiteNoise(4000, 5);
    for (let tone = 0; tone < 2000; tone++) {
      const hz = 200 + 9800 * Math.abs((places[tone]! * 7.3) % 1);
      const at = Math.floor(2.9 * RATE * Math.abs((places[2000 + tone]! * 11.7) % 1));
      for (let n = 0; n < 2048; n++) {
        samples[at + n]! += 6e-4 * Math.sin((Math.PI * n) / 2048) ** 2 * Math.sin((2 * Math.PI * hz * n) / RATE);
      }
    }
    expect(unevennessDb(signal(samples), 0, samples.length)).toBeGreaterThan(STEADY_DB + 2);
  });

  it("are not known in silence that is too short, or that is nothing but rounding", () => {
    expect(unevennessDb(signal(whiteNoise(RATE / 10, 6)), 0, RATE / 10)).toBeNull();
    const rounding = whiteNoise(3 * RATE, 7).map((value) => Math.round(0.4 * value) / 32_768);
    expect(unevennessDb(signal(rounding), 0, rounding.length)).toBeNull();
  });
});
