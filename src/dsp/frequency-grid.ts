const STEPS_PER_DECADE = 320;
const FIRST_STEP = -544;
const LAST_STEP = 416;

/**
 * The frequencies of every response curve, the same everywhere: 1000 * 10^(k/320) Hz.
 *
 * @returns Hz, shape `[961]`, rising from 19.95 Hz to 19.95 kHz
 */
export function frequencyGrid(): Float64Array {
  return Float64Array.from(
    { length: LAST_STEP - FIRST_STEP + 1 },
    (_, index) => 1000 * 10 ** ((FIRST_STEP + index) / STEPS_PER_DECADE),
  );
}
