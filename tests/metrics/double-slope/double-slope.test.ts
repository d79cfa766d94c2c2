import { describe, expect, it } from "vitest";
import { type DoubleSlope, doubleSlope } from "../../../src/metrics/double-slope/double-slope.js";
import { octaveDecays, together } from "../../../src/metrics/double-slope/octave-decays.js";
import { Random } from "../../../src/simulate/random.js";
import { roomImpulse } from "../../../src/simulate/room.js";
import { impulseOf, measuredPresent, measuredResponse } from "../decay/reference-responses.js";
import { plainRoom } from "../../simulate/test-rooms.js";

const RATE = 16_000;
const EARLY_S = 0.3;
const LATE_S = 1;
/** The reference notes' double slope: 15 dB apart at the arrival on the backward-integrated curve, as shares of the whole. */
const LATE_SHARE = 10 ** -1.5;
const FALL = 3 * Math.LN10;

/** Two noises that fall at their own rates, over a steady one some 60 dB down. */
function coupledNoise(seed: number, lateShare: number): Float64Array {
  const random = new Random(seed);
  const noise = (): Float64Array => random.fillNormal(new Float64Array(1.5 * RATE));
  const [early, late, steady] = [noise(), noise(), noise()];
  // A decay of 1 / (2 rate) seconds of mean energy holds a share of 1.
  const gains = [
    Math.sqrt((1 - lateShare) * 2 * (FALL / EARLY_S)),
    Math.sqrt(lateShare * 2 * (FALL / LATE_S)),
  ] as const;
  return early.map((value, n) => {
    const t = n / RATE;
    return (
      gains[0] * value * Math.exp((-FALL * t) / EARLY_S) +
      gains[1] * late[n]! * Math.exp((-FALL * t) / LATE_S) +
      0.003 * steady[n]!
    );
  });
}

const octavesOf = (seed: number, lateShare = LATE_SHARE) =>
  octaveDecays(impulseOf(coupledNoise(seed, lateShare), RATE));
const seeds = Array.from({ length: 60 }, (_, n) => n + 1);
const off = ({ earlyS, lateS }: DoubleSlope): number =>
  Math.max(Math.abs(earlyS / EARLY_S - 1), Math.abs(lateS / LATE_S - 1));

it("The analytic decay with 0.3 and 1.0 s, 15 dB apart at the arrival, is read within 2 %", () => {
  const curve = (t: number): number =>
    (1 - LATE_SHARE) * 10 ** ((-6 * t) / EARLY_S) + LATE_SHARE * 10 ** ((-6 * t) / LATE_S);
  const blockS = 0.01;
  const energy = Float64Array.from({ length: 80 }, (_, n) => curve(n * blockS) - curve((n + 1) * blockS));
  const found = doubleSlope({ energy, blockS, fromS: 0, valuesPerBlock: 10 }, { timeS: 0.5, noise: 1e-9 })!;
  expect(off(found)).toBeLessThan(0.02);
  expect(Math.abs(found.apartDb - 10 * Math.log10((1 - LATE_SHARE) / LATE_SHARE))).toBeLessThan(0.3);
});

describe("Realisations of noise with that decay", () => {
  const all = seeds.map((seed) => octavesOf(seed));

  it.each([2000, 4000])("in the octave at %d Hz give both times within 10 %, each of 60", (nominalHz) => {
    for (const octaves of all) {
      const octave = octaves.find((one) => one.nominalHz === nominalHz)!;
      expect(off(doubleSlope(octave, octave)!)).toBeLessThan(0.1);
    }
  });

  it.each([125, 250, 500, 1000])(
    "at %d Hz give both within 10 % as the mean of six places, root mean square",
    (nominalHz) => {
      const errors: number[] = [];
      for (let group = 0; group < 10; group++) {
        const six = all
          .slice(6 * group, 6 * group + 6)
          .map((octaves) => octaves.find((one) => one.nominalHz === nominalHz)!);
        const mean = together(six)!;
        const found = doubleSlope(mean, mean);
        if (found) errors.push(off(found));
      }
      // At 125 Hz six places hold 60 values down to the turn, and the early time scatters by 7 %: no fit can do better.
      expect(errors.length).toBeGreaterThan(7);
      expect(Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length)).toBeLessThan(0.1);
    },
  );

  it("below 2 kHz, at one place, are told only where they are known within 20 %, and the range told holds the truth", () => {
    let told = 0;
    let held = 0;
    for (const octaves of all) {
      for (const octave of octaves.filter(({ nominalHz }) => nominalHz < 2000)) {
        const found = doubleSlope(octave, octave);
        if (!found) continue;
        told++;
        expect(2 * Math.max(found.earlyShare, found.lateShare)).toBeLessThanOrEqual(0.2);
        const early = Math.abs(found.earlyS / EARLY_S - 1) <= 2 * found.earlyShare;
        if (early && Math.abs(found.lateS / LATE_S - 1) <= 2 * found.lateShare) held++;
      }
    }
    expect(told).toBeGreaterThan(100);
    // Two ranges of 95 %: nine in ten hold both, less three standard deviations of counting some 150.
    expect(held / told).toBeGreaterThan(0.9 - 3 * Math.sqrt((0.9 * 0.1) / told));
  });
});

describe("A decay of one slope", () => {
  it("is never called double: 60 realisations, all octaves, alone and six together", () => {
    const all = seeds.map((seed) => octavesOf(1000 + seed, 0));
    for (const octave of all.flat()) expect(doubleSlope(octave, octave)).toBeNull();
    for (let group = 0; group < 10; group++) {
      for (const { nominalHz } of all[0]!) {
        const six = together(
          all.slice(6 * group, 6 * group + 6).map((octaves) => octaves.find((one) => one.nominalHz === nominalHz)!),
        )!;
        expect(doubleSlope(six, six), `${nominalHz} Hz`).toBeNull();
      }
    }
  });

  it("stays one in a simulated room whose walls all absorb alike, though mirrors bend it", () => {
    const random = new Random(7);
    for (let n = 0; n < 4; n++) {
      const samples = roomImpulse(
        {
          room: plainRoom([6.1, 4.6 - 0.2 * n, 2.9], 0.3),
          source: { xyzM: [0.8 + 0.1 * n, 1.2, 1.5] },
          receiverM: [4.1, 2.9, 1.2],
        },
        RATE,
        0.9,
      );
      const errors = random.fillNormal(new Float64Array(samples.length));
      for (let t = 0; t < samples.length; t++) samples[t]! += 1e-5 * errors[t]!;
      const from = samples.findIndex((value) => Math.abs(value) > 0.1);
      for (const octave of octaveDecays(impulseOf(samples, RATE, from))) expect(doubleSlope(octave, octave)).toBeNull();
    }
  });
});

if (!measuredPresent) it.skip("not run: measured responses in ../shared/data are absent");
else {
  it("Measured rooms with closed doors, a listening room and an office, have one slope in every octave", () => {
    const files = [
      ...["M+000", "M+030", "M-030", "M+180", "U+030"].map((name) => `listening-room/LR_${name}.wav`),
      ...["000", "030", "330"].map((azimuth) => `office/room_a_az${azimuth}_16k.wav`),
    ];
    for (const name of files.flatMap((file) => [`${file}#0`, `${file}#1`])) {
      for (const octave of octaveDecays(measuredResponse(name))) expect(doubleSlope(octave, octave), name).toBeNull();
    }
  });
}
