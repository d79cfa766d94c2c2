/**
 * Frequency weightings A and C.
 *
 * Source: IEC 61672-1:2013 Annex E, poles and normalisation, read in stored transcriptions. Table 3 is this formula at the exact
 * third-octave frequencies, rounded to 0.1 dB.
 */
const POLES_HZ = [20.598997, 107.652649, 737.862231, 12194.217148] as const;

/**
 * A-weighting.
 *
 * @param frequencyHz - greater than 0
 * @returns dB re 1 kHz
 * @example weightingA(1000) // 0
 */
export function weightingA(frequencyHz: number): number {
  return unnormalisedA(frequencyHz) - unnormalisedA(1000);
}

/**
 * C-weighting.
 *
 * @param frequencyHz - greater than 0
 * @returns dB re 1 kHz
 * @example weightingC(1000) // 0
 */
export function weightingC(frequencyHz: number): number {
  return unnormalisedC(frequencyHz) - unnormalisedC(1000);
}

function unnormalisedC(frequencyHz: number): number {
  const [f1, , , f4] = POLES_HZ;
  const square = frequencyHz ** 2;
  return 20 * Math.log10((f4 ** 2 * square) / ((square + f1 ** 2) * (square + f4 ** 2)));
}

function unnormalisedA(frequencyHz: number): number {
  const [, f2, f3] = POLES_HZ;
  const square = frequencyHz ** 2;
  return unnormalisedC(frequencyHz) + 10 * Math.log10(square ** 2 / ((square + f2 ** 2) * (square + f3 ** 2)));
}
