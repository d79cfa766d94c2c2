import { soundingRuns } from "../sounding-runs.js";
import { windowedSinc } from "../windowed-sinc.js";

/** Errors 110 dB down, by Kaiser's rule: shape 0.1102 (A - 8.7), and a reach that follows from what is audible. */
const ERROR_DB = 110;
const SHAPE = 0.1102 * (ERROR_DB - 8.7);
const AUDIBLE_HZ = 20_000;
/** The highest share of the sample rate that is kept true, where that is less. */
const HIGHEST_SHARE = 0.455;
/** Readings between two rows of the table are interpolated on a line: an error of (pi / 2048)^2 / 2, 118 dB down. */
const ROWS = 1024;

/**
 * Records a signal with a clock that does not run as the player's does.
 *
 * Sample `n` of the result is the signal at `n / (1 + drift)`, read between its samples. Everything in it is
 * stretched, the room's answer too; a clock that wanders is left out. True up to 20 kHz or 0.455 of the sample rate,
 * the lower of the two.
 *
 * @param samples - shape `[n]`
 * @param sampleRate - Hz
 * @param driftPpm - parts per million, positive when the recording lasts longer than what was played
 * @returns shape `[round(n * (1 + driftPpm * 1e-6))]`
 * @throws {RangeError} if the drift is not a number within a tenth, 100 000 ppm
 * @example withClockDrift(second, 48_000, 100).length // 48_005 for 48_000 samples
 */
export function withClockDrift(samples: Float64Array, sampleRate: number, driftPpm: number): Float64Array {
  if (!(Math.abs(driftPpm) <= 1e5)) throw new RangeError(`driftPpm ${driftPpm} must lie within 100000 either way`);
  if (driftPpm === 0) return samples;
  const stretch = 1 + driftPpm * 1e-6;
  const edge = Math.min(AUDIBLE_HZ / sampleRate, HIGHEST_SHARE);
  const reach = Math.ceil((ERROR_DB - 8) / (2.285 * 2 * Math.PI * 2 * (1 - 2 * edge)));
  const kernel = makeTable(reach);
  // Silence at both ends spares the innermost loop a question.
  const padded = new Float64Array(samples.length + 2 * reach + 2);
  padded.set(samples, reach);
  const output = new Float64Array(Math.round(samples.length * stretch));
  for (const [from, to] of soundingRuns(samples, 2 * reach)) {
    const last = Math.min(output.length, Math.ceil((to + reach) * stretch));
    for (let n = Math.max(0, Math.floor((from - reach) * stretch)); n < last; n++) {
      const place = Math.min(n / stretch, samples.length);
      const whole = Math.floor(place);
      const step = (place - whole) * ROWS;
      const row = Math.floor(step);
      let at = row * 2 * reach;
      let below = 0;
      let above = 0;
      for (let m = whole + 1; m <= whole + 2 * reach; m++, at++) {
        below += padded[m]! * kernel[at]!;
        above += padded[m]! * kernel[at + 2 * reach]!;
      }
      output[n] = below + (step - row) * (above - below);
    }
  }
  return output;
}

/** Row `r`: the weights of the samples around a place `r / ROWS` after a sample, the earliest first. */
function makeTable(reach: number): Float64Array {
  const rows = new Float64Array((ROWS + 1) * 2 * reach);
  for (let row = 0; row <= ROWS; row++) {
    for (let j = 0; j < 2 * reach; j++) {
      rows[row * 2 * reach + j] = windowedSinc(j - reach + 1 - row / ROWS, reach, SHAPE);
    }
  }
  return rows;
}
