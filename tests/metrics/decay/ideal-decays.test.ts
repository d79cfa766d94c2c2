import { expect, it } from "vitest";
import { centreTime, clarity, definition } from "../../../src/metrics/decay/clarity.js";
import { decayTime } from "../../../src/metrics/decay/decay-time.js";
import { schroederDecay } from "../../../src/metrics/decay/schroeder-decay.js";
import { curvaturePercent, EVALUATION_DB } from "../../../src/standards/iso3382.js";
import { referenceTable } from "../../standards/reference-table.js";

const SAMPLE_RATE = 48_000;
const STEP_S = 1 / SAMPLE_RATE;

/** Energies per sample of p^2 = exp(-13.8155 t / T), until nothing is left for 64 bits. */
function idealDecay(timeS: number, lengthS = 3 * timeS): Float64Array {
  return Float64Array.from({ length: Math.round(lengthS * SAMPLE_RATE) }, (_, n) => 10 ** ((-6 * n * STEP_S) / timeS));
}

function split(energy: Float64Array, limitS: number): [early: number, late: number] {
  const at = Math.round(limitS * SAMPLE_RATE);
  const sum = (part: Float64Array): number => part.reduceRight((total, value) => total + value, 0);
  return [sum(energy.subarray(0, at)), sum(energy.subarray(at))];
}

const times = (curve: Float64Array, stepS: number) => ({
  edt: decayTime(curve, stepS, EVALUATION_DB.edt.from, EVALUATION_DB.edt.to)!,
  t20: decayTime(curve, stepS, EVALUATION_DB.t20.from, EVALUATION_DB.t20.to)!,
  t30: decayTime(curve, stepS, EVALUATION_DB.t30.from, EVALUATION_DB.t30.to)!,
});

// ISO 3382-1:2009 A.10 to A.13 evaluated for an exponential: T s, C50 dB, C80 dB, D50, Ts ms.
const ideal = [
  [0.2, 14.86, 23.983, 0.9684, 14.476],
  [0.3, 9.542, 15.89, 0.9, 21.715],
  [0.5, 4.744, 9.096, 0.7488, 36.191],
  [1, -0.021, 3.053, 0.4988, 72.382],
  [2, -3.845, -1.321, 0.2921, 144.765],
] as const;

it.each(ideal)("an ideal decay of %f s has its C50, C80, D50 and Ts", (timeS, c50Db, c80Db, d50, tsMs) => {
  const energy = idealDecay(timeS);
  const [early50, late50] = split(energy, 0.05);
  // Half the last printed digit each.
  expect(Math.abs(clarity(early50, late50) - c50Db)).toBeLessThan(0.000501);
  expect(Math.abs(clarity(...split(energy, 0.08)) - c80Db)).toBeLessThan(0.000501);
  expect(Math.abs(definition(early50, late50) - d50)).toBeLessThan(0.0000501);
  expect(Math.abs(1000 * centreTime(energy, STEP_S) - tsMs)).toBeLessThan(0.000501);
});

it.each(ideal.map(([timeS]) => timeS))(
  "an ideal decay of %f s has EDT, T20 and T30 of %f s and is straight",
  (timeS) => {
    const { edt, t20, t30 } = times(schroederDecay(idealDecay(timeS)), STEP_S);
    for (const found of [edt, t20, t30]) {
      // Cut 180 dB down; a hundred thousand roundings of eps in a sum of squares.
      expect(found.timeS / timeS).toBeCloseTo(1, 9);
      expect(found.nonLinearityPerMille).toBeCloseTo(0, 7);
    }
  },
);

const decays = referenceTable("exponential-decay");
if (!decays) it.skip("not run: ../shared/reference/exponential-decay.csv is absent");
else {
  it("every ideal decay of the reference table has its C50, C80, D50 and Ts", () => {
    for (const row of decays) {
      const energy = idealDecay(Number(row.T_s));
      const [early50, late50] = split(energy, 0.05);
      // Half the last printed digit each.
      expect(Math.abs(clarity(early50, late50) - Number(row.C50_dB))).toBeLessThan(5.01e-5);
      expect(Math.abs(clarity(...split(energy, 0.08)) - Number(row.C80_dB))).toBeLessThan(5.01e-5);
      expect(Math.abs(definition(early50, late50) - Number(row.D50))).toBeLessThan(5.01e-6);
      expect(Math.abs(1000 * centreTime(energy, STEP_S) - Number(row.Ts_ms))).toBeLessThan(5.01e-5);
    }
  });
}

/** A decay of 1 s cut at a level below its start, nothing added for the part cut off. */
function cutDecay(levelDb: number): { t20: number; t30: number } {
  const { t20, t30 } = times(schroederDecay(idealDecay(1, levelDb / 60)), STEP_S);
  return { t20: t20.timeS, t30: t30.timeS };
}

// Computed for a noise-free decay of 1 s: cut dB below the start, T20 s, T30 s.
it.each([
  [40, 0.995, 0.976, 0.0005],
  [45, 0.998, 0.992, 0.0005],
  [50, 0.9995, 0.997, 0.0005],
  [60, 0.9999, 0.9997, 0.00005],
])("a decay cut %f dB down without its tail reads %f s as T20, %f s as T30", (levelDb, t20, t30, halfDigit) => {
  const found = cutDecay(levelDb);
  expect(Math.abs(found.t20 - t20)).toBeLessThan(halfDigit * 1.001);
  expect(Math.abs(found.t30 - t30)).toBeLessThan(halfDigit * 1.001);
});

const biases = referenceTable("truncation-bias");
if (!biases) it.skip("not run: ../shared/reference/truncation-bias.csv is absent");
else {
  it("every cut of the reference table shortens T20 and T30 as tabled", () => {
    for (const row of biases) {
      const found = cutDecay(Number(row.X_dB));
      // Half the last printed digit.
      expect(Math.abs(found.t20 - Number(row.T20_s))).toBeLessThan(5.01e-6);
      expect(Math.abs(found.t30 - Number(row.T30_s))).toBeLessThan(5.01e-6);
    }
  });
}

it("with its tail a cut decay reads its true time", () => {
  const energy = idealDecay(1, 40 / 60);
  const tail = energy.at(-1)! * (10 ** (-6 * STEP_S) / (1 - 10 ** (-6 * STEP_S)));
  const { t20, t30 } = times(schroederDecay(energy, tail), STEP_S);
  // Thirty thousand roundings of eps.
  expect(t20.timeS).toBeCloseTo(1, 10);
  expect(t30.timeS).toBeCloseTo(1, 10);
});

it("a double slope of 0.3 and 1 s reads as tabled, and is neither straight nor uncurved", () => {
  // Backward-integrated curve (1 - a) 10^(-6 t / 0.3) + a 10^(-6 t / 1), a = 10^-1.5; figures computed for it.
  const share = 10 ** -1.5;
  const curve = Float64Array.from(
    { length: SAMPLE_RATE },
    (_, n) => 10 * Math.log10((1 - share) * 10 ** ((-6 * n * STEP_S) / 0.3) + share * 10 ** (-6 * n * STEP_S)),
  );
  const { edt, t20, t30 } = times(curve, STEP_S);
  // Half the last printed digit each.
  expect(Math.abs(edt.timeS - 0.317)).toBeLessThan(0.0005);
  expect(Math.abs(t20.timeS - 0.443)).toBeLessThan(0.0005);
  expect(Math.abs(t30.timeS - 0.67)).toBeLessThan(0.0005);
  expect(Math.abs(t20.nonLinearityPerMille - 17.7)).toBeLessThan(0.05);
  expect(Math.abs(t30.nonLinearityPerMille - 45.2)).toBeLessThan(0.05);
  expect(Math.abs(curvaturePercent(t20.timeS, t30.timeS) - 51)).toBeLessThan(0.5);
});

it("a click has no decay, and silence no curve", () => {
  const curve = schroederDecay([1, 0, 0]);
  expect([...curve]).toEqual([0, -Infinity, -Infinity]);
  expect(decayTime(curve, 1, 0, -10)).toBeNull();
  expect(() => schroederDecay([0, 0])).toThrow(RangeError);
});

it("a curve that ends above the lower level has no decay time", () => {
  expect(decayTime([0, -6, -12, -18], 0.1, 0, -15)!.timeS).toBeCloseTo(1, 12);
  expect(decayTime([0, -6, -12, -14], 0.1, 0, -15)).toBeNull();
});
