import { builtInTarget } from "../../src/comparison/target/built-in-target.js";
import { targetLevel } from "../../src/comparison/target/target.js";
import { predictModes } from "../../src/geometry/room-modes.js";
import { BS1116_RESPONSE, nominalMeanTime, reverberationMask } from "../../src/standards/bs1116.js";
import { EBU3276_RESPONSE } from "../../src/standards/ebu3276.js";
import { limitsAt, type MaskSegment } from "../../src/standards/limit-mask.js";
import { noiseRatingLevel } from "../../src/standards/noise-rating.js";
import { speedOfSound } from "../../src/standards/speed-of-sound.js";
import { type Check, equal, equalTable } from "./check.js";

/** Volume m3, Tm s. */
const meanTimes: readonly [number, number][] = [
  [30, 0.167],
  [50, 0.198],
  [80, 0.232],
  [100, 0.25],
  [150, 0.286],
  [200, 0.315],
];

/** Octave Hz, dB at NR 10, 15 and 20. */
const noiseRatings: readonly (readonly [number, number, number, number])[] = [
  [31.5, 62.2, 65.6, 69],
  [63, 43.4, 47.4, 51.3],
  [125, 30.7, 35, 39.4],
  [250, 21.3, 26, 30.6],
  [500, 14.5, 19.4, 24.3],
  [1000, 10, 15, 20],
  [2000, 6.6, 11.7, 16.8],
  [4000, 4.2, 9.3, 14.4],
  [8000, 2.3, 7.5, 12.6],
];

/** Corner Hz, lower and upper limit, dB; the ITU's lower limit under 250 Hz could not be read. */
const ituCorners: readonly Corner[] = [
  [50, null, 3],
  [250, -3, 3],
  [2000, -3, 3],
  [16_000, -7.5, 3],
];
const ebuCorners: readonly Corner[] = [
  [50, -3, 3],
  [250, -3, 3],
  [2000, -3, 3],
  [16_000, -6, 3],
];
type Corner = readonly [frequencyHz: number, lowerDb: number | null, upperDb: number];

/** Third octave Hz, T minus Tm at least and at most, s. */
const decayCorners: readonly (readonly [number, number, number])[] = [
  [63, -0.05, 0.3],
  [200, -0.05, 0.05],
  [1000, -0.05, 0.05],
  [4000, -0.05, 0.05],
  [5000, -0.1, 0.1],
  [8000, -0.1, 0.1],
];

/** Along 16, 12 and 8 ft: axial modes, Hz. */
const handbookModes: readonly (readonly [axis: "length" | "width" | "height", number, number])[] = [
  ["length", 1, 35.31],
  ["length", 2, 70.63],
  ["length", 3, 105.94],
  ["length", 4, 141.25],
  ["width", 1, 47.08],
  ["width", 2, 94.17],
  ["width", 3, 141.25],
  ["height", 1, 70.63],
  ["height", 2, 141.25],
];

/** Hz, dB. */
const tilt: readonly [number, number][] = [
  [20, 2.82],
  [50, 2.16],
  [100, 1.66],
  [315, 0.83],
  [1000, 0],
  [3150, -0.83],
  [10_000, -1.66],
  [20_000, -2.16],
];

type Row = readonly [name: string, published: number, computed: number];

function maskRows(mask: readonly MaskSegment[], corners: readonly Corner[]): Row[] {
  return corners.flatMap(([frequencyHz, lowerDb, upperDb]) => {
    const { lower, upper } = limitsAt(mask, frequencyHz);
    const row = (side: string, published: number | null, computed: number | null): Row[] =>
      // A limit that only one of the two has is as far off as can be.
      published === null && computed === null
        ? []
        : [[`${frequencyHz} Hz, ${side}`, published ?? Infinity, computed ?? -Infinity]];
    return [...row("lower", lowerDb, lower), ...row("upper", upperDb, upper)];
  });
}

export const roomChecks: readonly Check[] = [
  equal("speed of sound at 20 °C", "ISO 9613-1:1993, Annex A", 343.2, 1, speedOfSound(20), "m/s"),
  equal("speed of sound at 23 °C", "ISO 9613-1:1993, Annex A (computed)", 344.95, 2, speedOfSound(23), "m/s"),
  equalTable(
    "nominal mean reverberation time",
    "ITU-R BS.1116-3, 8.2.3 (restatement)",
    meanTimes.map(([volumeM3, timeS]) => [`${volumeM3} m³`, timeS, nominalMeanTime(volumeM3)]),
    3,
    "s",
  ),
  equalTable(
    "reverberation mask re Tm, 100 m³",
    "ITU-R BS.1116-3 and EBU Tech 3276 (200 Hz-4 kHz: restatement; else from memory, advisory)",
    decayCorners.flatMap(([nominalHz, lowerS, upperS]): Row[] => {
      const { tmS, bands } = reverberationMask(100);
      const band = bands.find((one) => one.nominalHz === nominalHz);
      return [
        [`${nominalHz} Hz, lower`, lowerS, (band?.lowerS ?? Infinity) - tmS],
        [`${nominalHz} Hz, upper`, upperS, (band?.upperS ?? Infinity) - tmS],
      ];
    }),
    2,
    "s",
  ),
  equalTable(
    "response mask",
    "ITU-R BS.1116-3 (250 Hz-2 kHz: restatement; else from memory, low confidence; all advisory)",
    maskRows(BS1116_RESPONSE, ituCorners),
    1,
    "dB",
  ),
  equalTable(
    "response mask",
    "EBU Tech 3276 (250 Hz-2 kHz: restatement; else from memory, low confidence; all advisory)",
    maskRows(EBU3276_RESPONSE, ebuCorners),
    1,
    "dB",
  ),
  equalTable(
    "noise rating curves NR 10, 15, 20",
    "ISO/R 1996:1971, constants from memory (computed)",
    noiseRatings.flatMap(([octaveHz, ...levels]) =>
      levels.map((levelDb, n): Row => {
        const rating = [10, 15, 20][n]!;
        return [`NR ${rating}, ${octaveHz} Hz`, levelDb, noiseRatingLevel(rating, octaveHz) ?? Infinity];
      }),
    ),
    1,
    "dB",
  ),
  equalTable(
    "axial modes of a room of 16 x 12 x 8 ft",
    "G. Ballou (ed.), Handbook for Sound Engineers, table 6-4",
    handbookModes.map(([axis, halfWaves, hz]): Row => {
      const order = ["length", "width", "height"].map((one) => (one === axis ? halfWaves : 0)).join();
      const mode = predictModes([16, 12, 8], 1130, 142).find((one) => one.order.join() === order);
      return [`${axis} ${halfWaves}`, hz, mode?.frequencyHz ?? Infinity];
    }),
    2,
    "Hz",
  ),
  equalTable(
    "target tilt",
    "−0.5 dB per octave re 1 kHz (computed); Toole 2015 gives −0.4 to −1, from memory",
    tilt.map(([hz, levelDb]): Row => [`${hz} Hz`, levelDb, targetLevel(builtInTarget("tilt"), hz) ?? Infinity]),
    2,
    "dB",
  ),
];
