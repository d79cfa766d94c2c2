import { straightOverLog } from "../../dsp/straight-over-log.js";
import { carNoiseDb } from "../../standards/car-noise.js";
import { weightingA } from "../../standards/iec61672.js";
import { NOISE_RATING_OCTAVES_HZ, noiseRatingLevel } from "../../standards/noise-rating.js";
import { BANDS } from "../bands.js";

const CAR_SPEED_KMH = 100;
/** Three third octaves of one octave. */
const THIRD_OF_OCTAVE_DB = 10 * Math.log10(3);
/** The curves are defined for ratings in between. */
const RATINGS = [-20, 130] as const;
const HALVINGS = 60;

/**
 * Noise around a device by third octave.
 *
 * Of most places only the A-weighted level is known. Its spectrum is then taken from the noise rating curve that has this level, as
 * noise indoors falls with frequency about like that: a choice of ours. In a car it is that of driving.
 *
 * @param playbackClass - its id
 * @param noiseDba - A-weighted level, dB
 * @returns dB SPL, in the order of `BANDS`
 */
export function deviceNoiseDb(playbackClass: string, noiseDba: number): number[] {
  if (playbackClass === "car") return BANDS.map(({ nominalHz }) => carNoiseDb(nominalHz, CAR_SPEED_KMH) ?? -Infinity);
  let [lower, upper]: [number, number] = [...RATINGS];
  for (let n = 0; n < HALVINGS; n++) {
    const middle = 0.5 * (lower + upper);
    if (levelA(curveOf(middle)) < noiseDba) lower = middle;
    else upper = middle;
  }
  return curveOf(upper);
}

function curveOf(rating: number): number[] {
  const octaves = NOISE_RATING_OCTAVES_HZ.map((hz) => ({ hz, level: noiseRatingLevel(rating, hz)! }));
  const first = octaves[0]!;
  const last = octaves.at(-1)!;
  return BANDS.map(({ nominalHz }) => {
    const upper = octaves.find(({ hz }) => hz >= nominalHz) ?? last;
    const lower = octaves.findLast(({ hz }) => hz <= nominalHz) ?? first;
    return straightOverLog(nominalHz, lower.hz, upper.hz, lower.level, upper.level) - THIRD_OF_OCTAVE_DB;
  });
}

function levelA(thirdsDb: readonly number[]): number {
  return (
    10 * Math.log10(BANDS.reduce((sum, { exactHz }, k) => sum + 10 ** ((thirdsDb[k]! + weightingA(exactHz)) / 10), 0))
  );
}
