import { equalLoudnessDb, levelShiftDb } from "../../src/standards/iso226.js";
import { popularMusicDensityDb } from "../../src/standards/popular-music.js";
import { specificLoudness } from "../../src/translation/loudness/specific-loudness.js";
import {
  allowedOff,
  ANNEX_B2_DB,
  ANNEX_B2_SONE,
  ANNEX_B2_SPECIFIC,
  PINK_SONE,
  PINK_SPECIFIC,
  type Published,
  TONES,
  toneThroughFilters,
} from "../translation/loudness/published-loudness.js";
import { type Check, equal, equalTable, inside } from "./check.js";

const ISO_226 = "ISO 226:2003, equation 1, constant 1.15 (transcription; contours computed)";
const B2 = "ISO 532-1:2017, Annex B.2 (transcription)";
const B3 = "ISO 532-1:2017, Annex B.3 (transcription), within 5 % or 0.1; tones through the class 1 filters";
const PINK = "ISO 532-1:2017, Annex B.3, signal 5 (transcription); level read off the specific loudness at 10 Bark";

/** Phon, Hz, dB. */
const contours: readonly (readonly [number, number, number])[] = [
  [40, 20, 99.85],
  [40, 63, 73.08],
  [40, 100, 64.37],
  [40, 1000, 40.01],
  [40, 4000, 36.65],
  [80, 63, 98.36],
  [60, 250, 67.53],
  [60, 8000, 71.66],
  [20, 12_500, 33.04],
];

/** Hz, dB from 80 to 60 phon. */
const shifts: readonly (readonly [number, number])[] = [
  [31.5, -9.43],
  [63, -7.58],
  [100, -6.17],
  [200, -3.94],
  [400, -1.77],
  [4000, 0.74],
];

/** Hz, dB per octave. */
const slopes: readonly (readonly [number, number])[] = [
  [200, -2.35],
  [400, -3.668],
  [800, -4.985],
  [1600, -6.303],
  [3200, -7.621],
  [6400, -8.938],
];

interface Place {
  readonly name: string;
  readonly least: number;
  readonly most: number;
  readonly computed: number;
}

function near(name: string, published: number, computed: number): Place {
  const off = allowedOff(published);
  const rounded = (value: number): number => Number(value.toFixed(3));
  return { name, least: rounded(published - off), most: rounded(published + off), computed };
}

function places(name: string, published: Published, specific: readonly number[]): Place[] {
  return published.map(([bark, sone]) => near(`${name}, ${bark} Bark`, sone, specific[Math.round(10 * bark) - 1]!));
}

/** One published value with the standard's tolerance, shown as published. */
function one(what: string, source: string, published: number, computed: number): Check {
  const margin = allowedOff(published) - Math.abs(computed - published);
  return { what, source, published: published.toFixed(3), computed: computed.toFixed(3), margin, unit: "sone" };
}

const worked = specificLoudness(ANNEX_B2_DB, "free");
const tones = TONES.map((tone) => ({
  ...tone,
  name: `${tone.frequencyHz} Hz ${tone.levelDb} dB`,
  heard: specificLoudness(toneThroughFilters(tone.frequencyHz, tone.levelDb), "free"),
}));

/** Pink noise at the level at which one critical band is as published, by halving. */
const pink = ((): ReturnType<typeof specificLoudness> => {
  const noise = (levelDb: number): ReturnType<typeof specificLoudness> =>
    specificLoudness(Array<number>(28).fill(levelDb), "free");
  let [low, high] = [0, 100];
  for (let n = 0; n < 50; n++) {
    const middle = (low + high) / 2;
    if (noise(middle).specific[99]! < 0.404) low = middle;
    else high = middle;
  }
  return noise(low);
})();

export const hearingChecks: readonly Check[] = [
  equalTable(
    "equal loudness contours",
    ISO_226,
    contours.map(([phon, hz, levelDb]) => [`${phon} phon, ${hz} Hz`, levelDb, equalLoudnessDb(phon, hz) ?? Infinity]),
    2,
    "dB",
  ),
  inside(
    "shift of balance from 80 to 60 phon",
    `${ISO_226}; made of four contours rounded to 0.01 dB`,
    shifts.map(([hz, shiftDb]) => ({
      name: `${hz} Hz`,
      least: Number((shiftDb - 0.02).toFixed(2)),
      most: Number((shiftDb + 0.02).toFixed(2)),
      computed: levelShiftDb(hz, 80, 60) ?? Infinity,
    })),
    3,
    "dB",
  ),
  equal("loudness of the worked third-octave levels", B2, ANNEX_B2_SONE, 3, worked.sone, "sone"),
  equalTable(
    "specific loudness of the worked levels",
    B2,
    ANNEX_B2_SPECIFIC.map(([bark, sone]) => [`${bark} Bark`, sone, worked.specific[Math.round(10 * bark) - 1]!]),
    4,
    "sone/Bark",
  ),
  ...tones.map(({ name, sone, heard }) => one(`loudness of a tone of ${name}`, B3, sone, heard.sone)),
  inside(
    "specific loudness of the three tones",
    B3,
    tones.flatMap(({ name, specific, heard }) => places(name, specific, heard.specific)),
    3,
    "sone/Bark",
  ),
  one("loudness of pink noise", PINK, PINK_SONE, pink.sone),
  inside("specific loudness of pink noise", PINK, places("pink", PINK_SPECIFIC, pink.specific), 3, "sone/Bark"),
  equalTable(
    "slope of the spectrum of popular music",
    "Elowsson and Friberg, AES 142 (2017), paper 9762 (restatement, sign restored)",
    slopes.map(([hz, slope]) => [
      `${hz} Hz`,
      slope,
      // Of a quadratic the difference over a symmetric octave is the slope itself.
      popularMusicDensityDb(hz * Math.SQRT2)! - popularMusicDensityDb(hz / Math.SQRT2)!,
    ]),
    3,
    "dB/octave",
  ),
];
