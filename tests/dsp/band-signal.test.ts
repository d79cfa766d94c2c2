import { expect, it } from "vitest";
import { bandFilter, filterPower, filterResponse } from "../../src/dsp/band-filter.js";
import { bandEnergy, bandSignal } from "../../src/dsp/band-signal.js";
import { forwardReal } from "../../src/dsp/fft.js";
import { powerOf } from "../../src/dsp/log-power.js";
import { Random } from "../../src/simulate/random.js";
import { OCTAVES, THIRD_OCTAVES } from "../../src/standards/iec61260.js";

const SAMPLE_RATE = 48_000;
const SIZE = 2 ** 14;
const octave = (nominalHz: number) => OCTAVES.find((band) => band.nominalHz === nominalHz)!;

/** Sum of a filtered cosine, by its response alone. */
function tone(frequencyHz: number): Float64Array {
  return Float64Array.from({ length: SIZE }, (_, n) => Math.cos((2 * Math.PI * frequencyHz * n) / SAMPLE_RATE));
}

it.each([1, 3] as const)(
  "a steady tone in a 1/%i octave band comes out with the reversed filter's gain and phase",
  (fraction) => {
    const band = (fraction === 1 ? OCTAVES : THIRD_OCTAVES).find(({ nominalHz }) => nominalHz === 1000)!;
    const filter = bandFilter(band);
    // A whole number of cycles in the circle.
    const frequencyHz = (SAMPLE_RATE / SIZE) * Math.round((1090 * SIZE) / SAMPLE_RATE);
    const { values, stepSamples } = bandSignal(forwardReal(tone(frequencyHz), SIZE), SAMPLE_RATE, filter);
    const { re, im } = filterResponse(filter, frequencyHz);
    for (let m = 0; m < values.length / 2; m += 7) {
      const angle = (2 * Math.PI * frequencyHz * m * stepSamples) / SAMPLE_RATE;
      // Conjugate gain times the turning pointer; 16384 roundings of eps.
      expect(values[2 * m]!).toBeCloseTo(re * Math.cos(angle) + im * Math.sin(angle), 10);
      expect(values[2 * m + 1]!).toBeCloseTo(re * Math.sin(angle) - im * Math.cos(angle), 10);
    }
  },
);

it("the energy in time is the energy in the spectrum's bins, however coarse the steps", () => {
  const noise = new Random(5).fillNormal(new Float64Array(SIZE));
  const spectrum = forwardReal(noise, SIZE);
  for (const band of [...OCTAVES, ...THIRD_OCTAVES]) {
    if (band.exactHz > 16_000) continue;
    const { values, stepSamples, bins } = bandSignal(spectrum, SAMPLE_RATE, bandFilter(band));
    let sum = 0;
    for (const value of values) sum += value * value;
    // Bins that fall on the same place after folding, whole `steps` apart, add a product of random phase: of variance
    // sum w_k w_(k+steps), twice its real part. Four standard deviations.
    const { power } = bins;
    const steps = values.length / 2;
    let mean = 0;
    let variance = 0;
    for (let k = 0; k < power.length; k++) {
      mean += power[k]!;
      for (let other = k + steps; other < power.length; other += steps) variance += 2 * power[k]! * power[other]!;
    }
    const difference = (0.5 * stepSamples * sum) / bandEnergy(powerOf(spectrum), bins) - 1;
    expect(Math.abs(difference)).toBeLessThan((4 * Math.sqrt(variance)) / mean + 1e-12);
  }
});

it("of white noise a band holds its share of the bins, weighted by the filter", () => {
  const flat = new Float64Array(SIZE / 2 + 1).fill(1);
  const band = octave(1000);
  const { bins } = bandSignal(new Float64Array(SIZE + 2), SAMPLE_RATE, bandFilter(band));
  let expected = 0;
  for (let k = 1; k < SIZE / 2; k++) expected += filterPower(bandFilter(band), (k * SAMPLE_RATE) / SIZE);
  // Cut 60 to 70 dB down: an omega^-6 tail from 10 on holds 1e-5 / 5 of the whole on each side.
  expect(bandEnergy(flat, bins) / (expected / (SIZE / 2))).toBeCloseTo(1, 5);
});

it("the reversed filter answers a click before it, and hardly after it", () => {
  const spectrum = forwardReal([1], SIZE);
  for (const nominalHz of [125, 500, 2000]) {
    const filter = bandFilter(octave(nominalHz));
    const { values, stepSamples } = bandSignal(spectrum, SAMPLE_RATE, filter);
    const count = values.length / 2;
    const after = Math.ceil(SAMPLE_RATE / filter.bandwidthHz / stepSamples);
    let late = 0;
    let total = 0;
    for (let n = 0; n < count; n++) {
      const energy = values[2 * n]! ** 2 + values[2 * n + 1]! ** 2;
      total += energy;
      if (n >= after && n < count / 2) late += energy;
    }
    // The bins are cut where the filter is 60 dB down.
    expect(10 * Math.log10(late / total)).toBeLessThan(-60);
  }
});
