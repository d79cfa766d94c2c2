import { bandFilter, filterPower } from "../../src/dsp/band-filter.js";
import { type Band, classOneLimits, limitBreakpoints, OCTAVES, THIRD_OCTAVES } from "../../src/standards/iec61260.js";
import { type Check, equalTable, inside } from "./check.js";

const MIDBANDS = "IEC 61260-1:2014, 5.2-5.4 (formula)";
const LIMITS = "IEC 61260-1:2014, Table 1 (two agreeing transcriptions)";

/** Nominal and exact midbands of the octaves, Hz. */
const octaves: readonly [number, number][] = [
  [31.5, 31.62278],
  [63, 63.09573],
  [125, 125.89254],
  [250, 251.18864],
  [500, 501.18723],
  [1000, 1000],
  [2000, 1995.26231],
  [4000, 3981.07171],
  [8000, 7943.28235],
  [16_000, 15_848.93192],
];

/** Those of the third octaves in between. */
const thirds: readonly [number, number][] = [
  [25, 25.11886],
  [40, 39.81072],
  [50, 50.11872],
  [80, 79.43282],
  [100, 100],
  [160, 158.48932],
  [200, 199.52623],
  [315, 316.22777],
  [400, 398.10717],
  [630, 630.95734],
  [800, 794.32823],
  [1250, 1258.92541],
  [1600, 1584.89319],
  [2500, 2511.88643],
  [3150, 3162.27766],
  [5000, 5011.87234],
  [6300, 6309.57344],
  [10_000, 10_000],
  [12_500, 12_589.25412],
  [20_000, 19_952.62315],
];

/** Class 1 limits of an octave filter, dB: exponent of the octave ratio, least, most. */
const octaveLimits: readonly [number, number, number][] = [
  [0, -0.4, 0.4],
  [1 / 8, -0.4, 0.5],
  [1 / 4, -0.4, 0.7],
  [3 / 8, -0.4, 1.4],
  [1 / 2, 1.2, 5.3],
  [1, 16.6, Number.POSITIVE_INFINITY],
  [2, 40.5, Number.POSITIVE_INFINITY],
  [3, 60, Number.POSITIVE_INFINITY],
  [4, 70, Number.POSITIVE_INFINITY],
];

/** The same for third octaves, at the printed frequency ratios. */
const thirdRatios = [1, 1.02667, 1.05575, 1.08746, 1.12202, 1.29437, 1.88173, 3.05365, 5.39195];

function midbands(what: string, bands: readonly Band[], published: readonly [number, number][]): Check {
  const rows = published.map(([nominalHz, exactHz]): [string, number, number] => {
    const band = bands.find((candidate) => candidate.nominalHz === nominalHz)!;
    return [`${nominalHz} Hz`, exactHz, band.exactHz];
  });
  return equalTable(what, MIDBANDS, rows, 5, "Hz");
}

function attenuationDb(band: Band, ratio: number): number {
  return -10 * Math.log10(filterPower(bandFilter(band), ratio * band.exactHz));
}

function tabledPoints(what: string, band: Band, ratios: readonly number[]): Check {
  const places = ratios.flatMap((ratio, n) => {
    const [, least, most] = octaveLimits[n]!;
    return [1 / ratio, ratio].map((place) => ({
      name: `${place.toFixed(3)} fm`,
      least,
      most,
      computed: attenuationDb(band, place),
    }));
  });
  return inside(what, LIMITS, places, 2, "dB");
}

function betweenPoints(what: string, band: Band): Check {
  const places = Array.from({ length: 1201 }, (_, n) => {
    const ratio = 2 ** ((n - 600) / 100);
    const { leastDb, mostDb } = classOneLimits(band.fraction, ratio);
    return { name: `${ratio.toFixed(3)} fm`, least: leastDb, most: mostDb, computed: attenuationDb(band, ratio) };
  }).map((place) => ({ ...place, least: Number(place.least.toFixed(2)), most: Number(place.most.toFixed(2)) }));
  return inside(what, `${LIMITS}, straight over log frequency between them`, places, 2, "dB");
}

const octave = OCTAVES[5]!;
const third = THIRD_OCTAVES[16]!;

export const bandChecks: readonly Check[] = [
  midbands("exact midbands of octaves", OCTAVES, octaves),
  midbands("exact midbands of third octaves", THIRD_OCTAVES, [...octaves, ...thirds]),
  equalTable(
    "breakpoints of third-octave limits",
    LIMITS.replace("Table 1", "5.10"),
    [...limitBreakpoints(3).passband, ...limitBreakpoints(3).stopband.slice(1)].map((ratio, n) => [
      `point ${n}`,
      thirdRatios[n]!,
      ratio,
    ]),
    5,
    "fm",
  ),
  tabledPoints(
    "class 1, octave filter at the tabled points",
    octave,
    octaveLimits.map(([exponent]) => 10 ** (0.3 * exponent)),
  ),
  tabledPoints("class 1, third-octave filter at the tabled points", third, thirdRatios),
  betweenPoints("class 1, octave filter over twelve octaves", octave),
  betweenPoints("class 1, third-octave filter over twelve octaves", third),
];
