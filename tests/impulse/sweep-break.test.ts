import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { forwardReal, inverseReal } from "../../src/dsp/fft.js";
import { sweepBreak } from "../../src/impulse/sweep-break.js";
import { whiteNoise } from "../known-recording.js";
import { decodeWav } from "../../src/recording/decode-wav.js";

const RATE = 48_000;
const SIZE = 2 ** 18;
const ARRIVAL = 60_000;
const SWEPT = [20, 20_000] as const;

/** A pulse whose phase is turned by an angle at each frequency. */
function pulse(angleAt: (hz: number) => number): Float64Array {
  const spectrum = forwardReal(Float64Array.of(1), SIZE);
  for (let k = 0; k <= SIZE / 2; k++) {
    const hz = (k * RATE) / SIZE;
    const angle = -2 * Math.PI * hz * (ARRIVAL / RATE) - angleAt(hz);
    spectrum[2 * k] = Math.cos(angle);
    spectrum[2 * k + 1] = Math.sin(angle);
  }
  return inverseReal(spectrum);
}

/** All below a frequency arrives later by so much: what a sweep is turned into that loses so much while it passes there. */
const parted = (breakHz: number, laterS: number): Float64Array =>
  pulse((hz) => (hz < breakHz ? 2 * Math.PI * hz * laterS : 0));

const breakOf = (circular: Float64Array, growthS = 1.45) =>
  sweepBreak(circular, ARRIVAL, { sampleRate: RATE, sweptHz: SWEPT, growthS });

/** Every third octave arrives later by a time of its own; counted from 1 kHz. */
const scattered = (laterS: (place: number) => number): Float64Array =>
  pulse((hz) => (hz === 0 ? 0 : 2 * Math.PI * hz * laterS(Math.round(10 * Math.log10(hz / 1000)))));

describe("A sweep whose parts arrive apart", () => {
  it.each([
    [1000, 0.085],
    [1000, -0.085],
    [700, 0.3],
    [2200, 0.1],
    [6500, 0.02],
    [300, 0.3],
    [5000, 0.01],
    [5000, -0.005],
  ])("breaks at %i Hz by %f s", (breakHz, laterS) => {
    const found = breakOf(parted(breakHz, laterS))!;
    // To the nearest edge of a third octave that both parts share.
    expect(Math.abs(Math.log2(found.frequencyHz / breakHz))).toBeLessThan(0.25);
    // Half of one over the bandwidth of a third octave there.
    expect(Math.abs(found.belowLaterS - laterS)).toBeLessThan(0.5 / (0.23 * breakHz));
  });

  it("is not one whose loudspeaker delays its bass by 3 ms, or turns its phase at a crossover or at its lower end", () => {
    expect(breakOf(pulse(() => 0))).toBeNull();
    expect(breakOf(parted(90, 0.003))).toBeNull();
    // Linkwitz-Riley of the fourth order: an all-pass of the second, Q = 0.71.
    const allPass = (hz: number, f0: number): number => 2 * Math.atan2((Math.SQRT2 * hz) / f0, 1 - (hz / f0) ** 2);
    for (const crossoverHz of [80, 300, 2500]) expect(breakOf(pulse((hz) => allPass(hz, crossoverHz)))).toBeNull();
    expect(breakOf(pulse((hz) => (hz === 0 ? 0 : -allPass(30, hz))))).toBeNull();
  });

  it("is not what another sweep leaves, whose notes arrive anywhere, though those below 1 kHz later in the mean", () => {
    const later = [0.1, 0.055, 0.1, 0.145, 0.1];
    expect(breakOf(scattered((place) => (place < 0 ? 0.1 : 0)))).not.toBeNull();
    expect(breakOf(scattered((place) => (place < 0 ? later.at(place % 5)! : 0)))).toBeNull();
  });

  it("is not what a sweep of another growth leaves, each note later than the one before", () => {
    for (const perBandS of [0.03, -0.03])
      expect(
        breakOf(
          scattered((place) => perBandS * place),
          0.35,
        ),
      ).toBeNull();
  });

  it("is not one in whose noise the bass is lost", () => {
    const noise = whiteNoise(SIZE, 3);
    const thin = forwardReal(parted(1, 0), SIZE);
    const trebleOnly = inverseReal(thin.fill(0, 0, 2 * Math.round((1000 * SIZE) / RATE)));
    expect(breakOf(trebleOnly.map((value, n) => value + 1e-4 * noise[n]!))).toBeNull();
  });

  const folder = new URL("../../../shared/data/", import.meta.url);
  it
    .skipIf(!existsSync(folder))
    .each([
      ...["LR_M+000", "LR_M+030", "LR_M+180", "LR_M-030", "LR_U+030"].map((name) => `listening-room/${name}.wav`),
      ...["room_a_az000_16k", "room_a_az030_16k", "room_a_az330_16k"].map((name) => `office/${name}.wav`),
    ])("is none of the measured rooms, %s (not run where ../shared/data is absent)", (file) => {
    const { channels, sampleRate } = decodeWav(new Uint8Array(readFileSync(new URL(file, folder))), file);
    for (const samples of channels) {
      const circular = new Float64Array(SIZE);
      circular.set(samples, ARRIVAL);
      const arrival = samples.reduce((best, value, n) => (Math.abs(value) > Math.abs(samples[best]!) ? n : best), 0);
      const played = { sampleRate, sweptHz: [30, 0.45 * sampleRate], growthS: 0.35 } as const;
      expect(sweepBreak(circular, ARRIVAL + arrival, played)).toBeNull();
    }
  });
});
