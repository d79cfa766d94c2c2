import { windowedSinc } from "../windowed-sinc.js";

/** Half the samples that one reading takes, and their window: errors 110 dB down up to 0.455 of the sample rate. */
const REACH = 40;
const SHAPE = 11.16;
/** Readings between two rows of the table are interpolated on a line: an error of (pi / 2048)^2 / 2, 118 dB down. */
const ROWS = 1024;
let table: Float64Array | undefined;

/**
 * Records a signal with a clock that does not run as the player's does.
 *
 * Sample `n` of the result is the signal at `n / (1 + drift)`, read between its samples. Everything in it is
 * stretched, the room's answer too; a clock that wanders is left out.
 *
 * @param samples - shape `[n]`, nothing above 0.455 of the sample rate
 * @param driftPpm - parts per million, positive when the recording lasts longer than what was played
 * @returns shape `[round(n * (1 + driftPpm * 1e-6))]`
 * @throws {RangeError} if the drift is not a number within a tenth, 100 000 ppm
 * @example withClockDrift(second, 100).length // 48_005 for 48_000 samples
 */
export function withClockDrift(samples: Float64Array, driftPpm: number): Float64Array {
  if (!(Math.abs(driftPpm) <= 1e5)) throw new RangeError(`driftPpm ${driftPpm} must lie within 100000 either way`);
  if (driftPpm === 0) return samples;
  const stretch = 1 + driftPpm * 1e-6;
  const kernel = (table ??= makeTable());
  // Silence at both ends spares the innermost loop a question.
  const padded = new Float64Array(samples.length + 2 * REACH + 2);
  padded.set(samples, REACH);
  const output = new Float64Array(Math.round(samples.length * stretch));
  for (let n = 0; n < output.length; n++) {
    const place = Math.min(n / stretch, samples.length);
    const whole = Math.floor(place);
    const step = (place - whole) * ROWS;
    const row = Math.floor(step);
    let at = row * 2 * REACH;
    let below = 0;
    let above = 0;
    for (let m = whole + 1; m <= whole + 2 * REACH; m++, at++) {
      below += padded[m]! * kernel[at]!;
      above += padded[m]! * kernel[at + 2 * REACH]!;
    }
    output[n] = below + (step - row) * (above - below);
  }
  return output;
}

/** Row `r`: the weights of the samples around a place `r / ROWS` after a sample, the earliest first. */
function makeTable(): Float64Array {
  const rows = new Float64Array((ROWS + 1) * 2 * REACH);
  for (let row = 0; row <= ROWS; row++) {
    for (let j = 0; j < 2 * REACH; j++) {
      rows[row * 2 * REACH + j] = windowedSinc(j - REACH + 1 - row / ROWS, REACH, SHAPE);
    }
  }
  return rows;
}
