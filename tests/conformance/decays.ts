import { centreTime, clarity, definition } from "../../src/metrics/decay/clarity.js";
import { decayTime } from "../../src/metrics/decay/decay-time.js";
import { schroederDecay } from "../../src/metrics/decay/schroeder-decay.js";
import { curvaturePercent, EVALUATION_DB } from "../../src/standards/iso3382.js";
import { type Check, equal, equalTable } from "./check.js";

const RATE = 48_000;
const IDEAL = "ISO 3382-1:2009, A.10-A.13 for an exponential (computed)";
const CUT = "ISO 3382-1 ranges, decay cut without its tail (computed)";
const BENT = "ISO 3382-2:2008, Annex B, from memory (figures computed)";

/** T s, C50 dB, C80 dB, D50, Ts ms. */
const ideal: readonly [number, number, number, number, number][] = [
  [0.15, 19.9564, 31.9973, 0.99, 10.8574],
  [0.2, 14.8604, 23.9827, 0.96838, 14.4765],
  [0.3, 9.5424, 15.8895, 0.9, 21.7147],
  [0.5, 4.7437, 9.0956, 0.74881, 36.1912],
  [1, -0.0206, 3.0534, 0.49881, 72.3824],
  [2, -3.8454, -1.3206, 0.29205, 144.7648],
  [3, -5.8683, -3.5121, 0.20567, 217.1472],
];

/** Cut dB below the start, T20 s, T30 s of a decay of 1 s. */
const cut: readonly [number, number, number][] = [
  [36, 0.98748, 0.94918],
  [40, 0.99489, 0.97577],
  [45, 0.99837, 0.99152],
  [50, 0.99948, 0.99722],
  [55, 0.99984, 0.99911],
  [60, 0.99995, 0.99972],
  [70, 0.99999, 0.99997],
];

function decay(timeS: number, lengthS: number): Float64Array {
  return Float64Array.from({ length: Math.round(lengthS * RATE) }, (_, n) => 10 ** ((-6 * n) / (RATE * timeS)));
}

function split(energy: Float64Array, limitS: number): [early: number, late: number] {
  const at = Math.round(limitS * RATE);
  const sum = (part: Float64Array): number => part.reduceRight((total, value) => total + value, 0);
  return [sum(energy.subarray(0, at)), sum(energy.subarray(at))];
}

function time(curve: Float64Array, kind: keyof typeof EVALUATION_DB) {
  return decayTime(curve, 1 / RATE, EVALUATION_DB[kind].from, EVALUATION_DB[kind].to)!;
}

function idealTable(what: string, column: 1 | 2 | 3 | 4, digits: number, unit: string): Check {
  const figures = [
    (energy: Float64Array) => clarity(...split(energy, 0.05)),
    (energy: Float64Array) => clarity(...split(energy, 0.08)),
    (energy: Float64Array) => definition(...split(energy, 0.05)),
    (energy: Float64Array) => 1000 * centreTime(energy, 1 / RATE),
  ];
  return equalTable(
    `${what} of ideal decays`,
    IDEAL,
    ideal.map((row) => [`T = ${row[0]} s`, row[column], figures[column - 1]!(decay(row[0], 3 * row[0]))]),
    digits,
    unit,
  );
}

function cutTable(kind: "t20" | "t30", column: 1 | 2): Check {
  return equalTable(
    `${kind.toUpperCase()} of a decay of 1 s that is cut`,
    CUT,
    cut.map((row) => [`${row[0]} dB`, row[column], time(schroederDecay(decay(1, row[0] / 60)), kind).timeS]),
    5,
    "s",
  );
}

const share = 10 ** -1.5;
const bent = Float64Array.from(
  { length: RATE },
  (_, n) => 10 * Math.log10((1 - share) * 10 ** ((-6 * n) / (0.3 * RATE)) + share * 10 ** ((-6 * n) / RATE)),
);
const [edt, t20, t30] = (["edt", "t20", "t30"] as const).map((kind) => time(bent, kind)) as [
  ReturnType<typeof time>,
  ReturnType<typeof time>,
  ReturnType<typeof time>,
];

export const decayChecks: readonly Check[] = [
  idealTable("C50", 1, 4, "dB"),
  idealTable("C80", 2, 4, "dB"),
  idealTable("D50", 3, 5, ""),
  idealTable("Ts", 4, 4, "ms"),
  cutTable("t20", 1),
  cutTable("t30", 2),
  equal("double slope 0.3 s and 1 s, EDT", BENT, 0.317, 3, edt.timeS, "s"),
  equal("double slope, T20", BENT, 0.443, 3, t20.timeS, "s"),
  equal("double slope, T30", BENT, 0.67, 3, t30.timeS, "s"),
  equal("double slope, non-linearity of T20", BENT, 17.7, 1, t20.nonLinearityPerMille, "per mille"),
  equal("double slope, non-linearity of T30", BENT, 45.2, 1, t30.nonLinearityPerMille, "per mille"),
  equal("double slope, curvature", BENT, 51, 0, curvaturePercent(t20.timeS, t30.timeS), "%"),
];
