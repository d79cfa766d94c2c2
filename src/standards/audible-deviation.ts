/** Third octaves are 1/3 octave wide: a Q of 4.3. */
const OCTAVES_PER_BAND = 1 / 3;

/**
 * Least deviation of a response that is heard with popular music, by its width.
 *
 * @param bands - third octaves that deviate together, at least 1
 * @returns dB for a peak; a dip needs about twice as much
 * @remarks Source: as for a single resonance.
 * @example audiblePeakDb(3) // 1.73, an octave
 */
export function audiblePeakDb(bands: number): number {
  const octaves = bands * OCTAVES_PER_BAND;
  return audibleResonanceDb(2 ** (octaves / 2) / (2 ** octaves - 1));
}

/**
 * Least height of a resonance over its surroundings that is heard with popular music.
 *
 * @param quality - frequency over bandwidth; from 10 up nothing changes any more
 * @returns dB
 * @remarks Source: F. E. Toole, S. E. Olive, J. Audio Eng. Soc. 36 (1988), as restated: Q 1 1.5 dB, Q 10 3 dB; between them
 * on the logarithm of Q (a choice of ours).
 * @example audibleResonanceDb(10) // 3
 */
export function audibleResonanceDb(quality: number): number {
  return 1.5 + 1.5 * Math.min(1, Math.max(0, Math.log10(quality)));
}
