/**
 * Programme loudness: the two filter stages of K-weighting, channel weights, blocks and gates.
 *
 * Source: ITU-R BS.1770-4, Annex 1. Its coefficients for 48 kHz are from memory; they come out of the analogue parameters below, read in
 * stored transcriptions, to the last printed digit. Channel weights and gates: from memory, undisputed.
 */

/** One second-order section, normalised to a0 = 1. */
export interface SecondOrderSection {
  readonly b: readonly [number, number, number];
  readonly a: readonly [number, number];
}

const SHELF = { frequencyHz: 1681.974450955533, quality: 0.7071752369554196, gainDb: 3.999843853973347 };
/** The shelf's gain at its turning point is this power of its full gain. */
const SHELF_MIDDLE = 0.4996667741545416;
const HIGH_PASS = { frequencyHz: 38.13547087602444, quality: 0.5003270373238773 };

/** Rate for which the recommendation prints coefficients, Hz. */
const PRINTED_RATE = 48_000;

const LEAST_RATE = 16_000;

/** Loudness of a mean square of 1 in a channel of weight 1, LUFS. */
export const LOUDNESS_OFFSET = -0.691;

/** Blocks of 400 ms every 100 ms. */
export const BLOCK_STEP_S = 0.1;
export const STEPS_PER_BLOCK = 4;
/** EBU Tech 3341, short-term: 3 s. */
export const STEPS_PER_SHORT_TERM = 30;

/** Blocks at or below count as silence, LUFS. */
export const ABSOLUTE_GATE = -70;
/** Blocks at or below this re the loudness of what is not silent do not count, LU. */
export const RELATIVE_GATE = -10;

/** Weight of a channel's power: 1 in front; this for left and right surround. */
export const SURROUND_WEIGHT = 1.41;

/**
 * K-weighting for any sampling rate.
 *
 * Below the turning points of both stages the printed high pass has a gain that depends on the rate; it is scaled so that every rate
 * weighs as 48 kHz does.
 *
 * @param sampleRate - Hz, at least 16 kHz: below, the shelf bends by more than 0.1 dB at 1 kHz
 * @returns the shelf that stands for the head, then the high pass
 * @throws {RangeError} if the rate is too low for the shelf
 */
export function kWeighting(sampleRate: number): [SecondOrderSection, SecondOrderSection] {
  if (!(sampleRate >= LEAST_RATE))
    throw new RangeError(`sampleRate must be at least ${LEAST_RATE} Hz, got ${sampleRate}`);
  return [shelf(sampleRate), highPass(sampleRate)];
}

function shelf(sampleRate: number): SecondOrderSection {
  const { frequencyHz, quality, gainDb } = SHELF;
  const k = Math.tan((Math.PI * frequencyHz) / sampleRate);
  const gain = 10 ** (gainDb / 20);
  const middle = gain ** SHELF_MIDDLE;
  const a0 = 1 + k / quality + k * k;
  return {
    b: [
      (gain + (middle * k) / quality + k * k) / a0,
      (2 * (k * k - gain)) / a0,
      (gain - (middle * k) / quality + k * k) / a0,
    ],
    a: [(2 * (k * k - 1)) / a0, (1 - k / quality + k * k) / a0],
  };
}

function highPass(sampleRate: number): SecondOrderSection {
  const { frequencyHz, quality } = HIGH_PASS;
  const k = Math.tan((Math.PI * frequencyHz) / sampleRate);
  const a0 = highPassDenominator(sampleRate);
  const gain = highPassDenominator(PRINTED_RATE) / a0;
  return { b: [gain, -2 * gain, gain], a: [(2 * (k * k - 1)) / a0, (1 - k / quality + k * k) / a0] };
}

function highPassDenominator(sampleRate: number): number {
  const { frequencyHz, quality } = HIGH_PASS;
  const k = Math.tan((Math.PI * frequencyHz) / sampleRate);
  return 1 + k / quality + k * k;
}
