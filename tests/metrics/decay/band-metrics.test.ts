import { expect, it } from "vitest";
import { bandMetrics, type DecayMetrics } from "../../../src/metrics/decay/band-metrics.js";
import { Random } from "../../../src/simulate/random.js";
import { type Band, bandsWithin, OCTAVES, THIRD_OCTAVES } from "../../../src/standards/iec61260.js";
import { impulseOf } from "./reference-responses.js";

const SAMPLE_RATE = 48_000;
const ALL = [...OCTAVES, ...THIRD_OCTAVES];
const octave = (nominalHz: number): Band => OCTAVES.find((band) => band.nominalHz === nominalHz)!;

function fall(timeS: number, n: number): number {
  return Math.exp((-3 * Math.LN10 * n) / (SAMPLE_RATE * timeS));
}

function decayingNoise(seed: number, timeS: number, seconds: number): Float64Array {
  const noise = new Random(seed).fillNormal(new Float64Array(Math.round(seconds * SAMPLE_RATE)));
  return noise.map((value, n) => value * fall(timeS, n));
}

function measure(samples: Float64Array, band: Band, arrivalSample = 0): DecayMetrics {
  return bandMetrics(impulseOf(samples, SAMPLE_RATE, arrivalSample), [band])[0]!;
}

it.each([0.2, 0.3, 0.5, 1, 2, 3])("a tone at midband that decays in %f s reads so, in every band", (timeS) => {
  for (const band of ALL.filter(({ nominalHz }) => nominalHz >= 63 && nominalHz <= 8000)) {
    // Low bands at low rates, for speed.
    const sampleRate = band.exactHz < 1000 ? SAMPLE_RATE / 8 : SAMPLE_RATE;
    const tone = Float64Array.from(
      { length: Math.round(sampleRate * Math.max(0.6, 1.3 * timeS)) },
      (_, n) =>
        Math.exp((-3 * Math.LN10 * n) / (sampleRate * timeS)) * Math.cos((2 * Math.PI * band.exactHz * n) / sampleRate),
    );
    const { t20S, t30S } = bandMetrics(impulseOf(tone, sampleRate), [band])[0]!;
    // The bar: 2 %.
    expect(Math.abs(t20S! / timeS - 1), `1/${band.fraction} octave ${band.nominalHz} Hz T20`).toBeLessThan(0.02);
    expect(Math.abs(t30S! / timeS - 1), `1/${band.fraction} octave ${band.nominalHz} Hz T30`).toBeLessThan(0.02);
  }
});

it.each([1, 2, 3])("noise 50 dB under the start leaves the octaves' T30 where it is, seed %i", (seed) => {
  for (const timeS of [0.3, 0.6, 1]) {
    const clean = decayingNoise(100 * seed, timeS, 2);
    const floor = new Random(100 * seed + 1).fillNormal(new Float64Array(clean.length));
    const noisy = clean.map((value, n) => value + 10 ** (-50 / 20) * floor[n]!);
    for (const nominalHz of [500, 1000, 2000, 4000, 8000]) {
      const found = measure(noisy, octave(nominalHz));
      // The bar: 2 %.
      expect(Math.abs(found.t30S! / measure(clean, octave(nominalHz)).t30S! - 1), `${nominalHz} Hz`).toBeLessThan(0.02);
    }
  }
});

it("noise 50 dB under the start does not lean T30 of the low octaves either way", () => {
  const seeds = Array.from({ length: 24 }, (_, seed) => 500 + 2 * seed);
  for (const nominalHz of [125, 250]) {
    const shares = seeds.flatMap((seed) => {
      const clean = decayingNoise(seed, 0.6, 2);
      const floor = new Random(seed + 1).fillNormal(new Float64Array(clean.length));
      const noisy = clean.map((value, n) => value + 10 ** (-50 / 20) * floor[n]!);
      // By chance one may have less than the 45 dB of range that T30 needs: then none is given.
      const { t30S } = measure(noisy, octave(nominalHz));
      return t30S === null ? [] : [t30S / measure(clean, octave(nominalHz)).t30S! - 1];
    });
    expect(shares.length).toBeGreaterThan(20);
    const mean = shares.reduce((sum, share) => sum + share) / shares.length;
    // The bar, 2 %, for the mean: one decay holds so few independent values there that chance moves it by up to 3 %.
    expect(Math.abs(mean), `${nominalHz} Hz`).toBeLessThan(0.02);
  }
});

it("what the same noise does to narrower and lower bands is inside the uncertainty given", () => {
  let squares = 0;
  let count = 0;
  for (let seed = 1; seed <= 4; seed++) {
    const clean = decayingNoise(300 + seed, 0.6, 2);
    const floor = new Random(400 + seed).fillNormal(new Float64Array(clean.length));
    const noisy = clean.map((value, n) => value + 10 ** (-50 / 20) * floor[n]!);
    const bands = [octave(125), octave(250), ...THIRD_OCTAVES.filter(({ nominalHz }) => nominalHz >= 160)].slice(0, 16);
    const without = bandMetrics(impulseOf(clean, SAMPLE_RATE), bands);
    for (const [n, found] of bandMetrics(impulseOf(noisy, SAMPLE_RATE), bands).entries()) {
      if (found.t30S === null) continue;
      // The floor of 2 % stands for repeatability, which is not at play here.
      const fromNoise = Math.sqrt(found.decayUncertaintyS! ** 2 - (0.02 * found.t30S) ** 2);
      squares += ((found.t30S - without[n]!.t30S!) / fromNoise) ** 2;
      count++;
    }
  }
  expect(count).toBeGreaterThan(50);
  // Mean square of count normal deviations: within four of its own standard deviations of 1, sqrt(2 / count), above; the
  // figure may overstate, as errors are taken for wholly correlated, but by no more than twice.
  expect(Math.sqrt(squares / count)).toBeLessThan(Math.sqrt(1 + 4 * Math.sqrt(2 / count)));
  expect(Math.sqrt(squares / count)).toBeGreaterThan(0.5);
});

it("nothing before the arrival counts, however loud", () => {
  const decay = decayingNoise(7, 0.4, 1);
  const loud = new Float64Array(4800 + decay.length);
  loud.set(new Random(8).fillNormal(new Float64Array(4800)).map((value) => 100 * value));
  loud.set(decay, 4800);
  const bands = bandsWithin(50, 12_000);
  const alone = bandMetrics(impulseOf(decay, SAMPLE_RATE), bands);
  expect(bandMetrics(impulseOf(loud, SAMPLE_RATE, 4800), bands)).toEqual(alone);
  // The arrival's fraction is dropped.
  expect(bandMetrics(impulseOf(loud, SAMPLE_RATE, 4800.7), bands)).toEqual(alone);
});

it("neither scale nor polarity changes a figure", () => {
  const decay = decayingNoise(9, 0.4, 1);
  const turned = decay.map((value) => -1024 * value);
  const bands = bandsWithin(50, 12_000);
  // A power of two scales without rounding; logarithms round in the last places.
  const found = bandMetrics(impulseOf(turned, SAMPLE_RATE), bands);
  for (const [n, expected] of bandMetrics(impulseOf(decay, SAMPLE_RATE), bands).entries()) {
    expect(found[n]!.flags).toEqual(expected.flags);
    for (const key of ["t20S", "t30S", "edtS", "c50Db", "tsS", "decayRangeDb"] as const) {
      if (expected[key] === null) expect(found[n]![key]).toBeNull();
      else expect(found[n]![key]! / expected[key] - 1).toBeCloseTo(0, 9);
    }
  }
});

it("a decay that is still going on at the end of the record keeps its time", () => {
  const long = decayingNoise(12, 1, 2.5);
  // 54 dB of decay, enough for T30.
  const short = long.subarray(0, 0.9 * SAMPLE_RATE);
  for (const nominalHz of [500, 1000, 2000, 4000]) {
    const cut = measure(short, octave(nominalHz));
    const whole = measure(long, octave(nominalHz));
    // Without the tail T30 would be 0.2 % short at 54 dB; one position's slope extrapolates the tail to within 20 % of it.
    expect(Math.abs(cut.t30S! / whole.t30S! - 1)).toBeLessThan(0.002);
    expect(Math.abs(cut.decayRangeDb! - 54)).toBeLessThan(4);
  }
});

it("a record too short for 35 dB of decay gives no T20, and says so", () => {
  const found = measure(decayingNoise(13, 1, 0.5), octave(1000));
  expect(found.t20S).toBeNull();
  expect(found.t30S).toBeNull();
  expect(found.decayUncertaintyS).toBeNull();
  expect(found.flags).toEqual(expect.arrayContaining(["t20-range-too-small", "t30-range-too-small"]));
  expect(found.edtS).not.toBeNull();
});

it("noise 40 dB under the start leaves T20 and takes T30 away", () => {
  const floor = new Random(15).fillNormal(new Float64Array(2 * SAMPLE_RATE));
  const noisy = decayingNoise(14, 0.6, 2).map((value, n) => value + 0.01 * floor[n]!);
  for (const nominalHz of [500, 1000, 2000, 4000]) {
    const found = measure(noisy, octave(nominalHz));
    expect(found.t20S).not.toBeNull();
    expect(found.t30S).toBeNull();
    expect(found.flags).toContain("t30-range-too-small");
    expect(found.flags).not.toContain("t20-range-too-small");
    // The knee lies at the noise; a curve starts with the energy that the decay has, within a few dB over few modes.
    expect(Math.abs(found.decayRangeDb! - 40)).toBeLessThan(3);
  }
});

it("two slopes are called curved and not straight", () => {
  const samples = decayingNoise(16, 0.3, 2).map((value, n) => value + 0.1 * decayingAt(n));
  const found = measure(samples, octave(2000));
  expect(found.flags).toContain("curved");
  expect(found.flags).toContain("not-straight");
  expect(found.curvaturePercent!).toBeGreaterThan(10);
  expect(found.nonLinearityPerMille!).toBeGreaterThan(10);
});

const slow = decayingNoise(17, 1.2, 2);
function decayingAt(n: number): number {
  return slow[n]!;
}

it("a direct sound far above the room is flagged and the room's decay given apart", () => {
  const samples = decayingNoise(18, 0.3, 1).map((value) => 0.05 * value);
  // The direct sound of a loudspeaker, 2 ms long.
  for (let n = 0; n < 96; n++)
    samples[n]! += Math.cos(0.3 * n) * Math.exp(-n / 20) + Math.cos(0.05 * n) * Math.exp(-n / 40);
  for (const nominalHz of [500, 1000, 2000]) {
    const found = measure(samples, octave(nominalHz));
    expect(found.flags).toContain("direct-dominated");
    // One sample more or less ahead of it would decide what an EDT is.
    expect([found.edtS, found.edtUncertaintyS]).toEqual([null, null]);
    // 20 dB of one realisation: 0.88 T sqrt(1.19 / (B T)) of ISO 3382-2, three times, at 500 Hz.
    expect(Math.abs(found.lateS! - 0.3)).toBeLessThan(3 * 0.88 * 0.3 * Math.sqrt(1.19 / (0.71 * nominalHz * 0.3)));
  }
});

it("a diffuse decay is hardly ever called dominated by the direct sound", () => {
  let judged = 0;
  let flagged = 0;
  for (let seed = 20; seed < 40; seed++) {
    for (const band of bandMetrics(impulseOf(decayingNoise(seed, 0.3, 1), SAMPLE_RATE), bandsWithin(50, 12_000))) {
      judged++;
      if (band.flags.includes("direct-dominated")) flagged++;
      else expect(band.lateS).toBeNull();
    }
  }
  // In the narrowest band that is judged 5 ms hold 1.5 independent values, each exponential. They are a quarter of what follows:
  // that they come to more has a probability of 1 %, in wider bands much less.
  expect(flagged / judged).toBeLessThan(0.01);
});

it("where bandwidth times decay time is 4 or less the band is called limited by its filter", () => {
  const bands = bandsWithin(25, 12_000);
  const found = bandMetrics(impulseOf(decayingNoise(31, 0.2, 1), SAMPLE_RATE), bands);
  for (const { fraction, exactHz, t20S, t30S, flags } of found) {
    const timeS = t30S ?? t20S;
    if (timeS === null) continue;
    const bandwidthHz = exactHz * (10 ** (0.15 / fraction) - 10 ** (-0.15 / fraction));
    expect(flags.includes("filter-limited")).toBe(bandwidthHz * timeS <= 4);
  }
  expect(found.find(({ fraction, nominalHz }) => fraction === 3 && nominalHz === 63)!.flags).toContain(
    "filter-limited",
  );
});

it("C50 and D50 say the same, and early plus late energy is split at 50 ms whatever the filter rings", () => {
  for (const { c50Db, d50 } of bandMetrics(
    impulseOf(decayingNoise(33, 0.5, 1.5), SAMPLE_RATE),
    bandsWithin(50, 12_000),
  )) {
    // A few roundings of eps in 10 lg.
    expect(c50Db).toBeCloseTo(10 * Math.log10(d50! / (1 - d50!)), 9);
  }
});

it("a click counts as early or late by when it arrives, however long the filter rings", () => {
  for (const [atS, sign] of [
    [0.048, 1],
    [0.052, -1],
  ] as const) {
    const samples = decayingNoise(34, 0.5, 1.5).map((value) => 0.01 * value);
    samples[Math.round(atS * SAMPLE_RATE)]! += 100;
    // One over the bandwidth is 11 ms at 125 Hz: filtered first, the click would be on both sides of 50 ms.
    for (const nominalHz of [125, 250, 500, 1000]) {
      expect(sign * measure(samples, octave(nominalHz)).c50Db!, `${nominalHz} Hz`).toBeGreaterThan(20);
    }
  }
});

it("silence, a click, steady noise and an empty response have no decay and no NaN", () => {
  const click = new Float64Array(SAMPLE_RATE);
  click[0] = 1;
  const noise = new Random(40).fillNormal(new Float64Array(SAMPLE_RATE));
  for (const samples of [new Float64Array(SAMPLE_RATE), new Float64Array(0), click, noise, Float64Array.of(1, 0.5)]) {
    for (const found of bandMetrics(impulseOf(samples, SAMPLE_RATE), bandsWithin(20, 20_000))) {
      expect(found.t30S).toBeNull();
      expect(found.flags.length).toBeGreaterThan(0);
      for (const value of Object.values(found))
        if (typeof value === "number") expect(Number.isFinite(value)).toBe(true);
    }
  }
});

it("a band that was not swept wholly is not judged", () => {
  const impulse = { ...impulseOf(decayingNoise(41, 0.3, 1), SAMPLE_RATE), sweptHz: [90, 5000] as const };
  const found = bandMetrics(impulse, [octave(125), octave(4000)]);
  expect(found.map(({ flags, t20S }) => [flags, t20S])).toEqual([
    [["outside-swept-range"], null],
    [["outside-swept-range"], null],
  ]);
});
