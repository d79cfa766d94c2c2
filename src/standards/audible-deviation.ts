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

/** Height at the threshold with popular music, by quality. */
const RESONANCES_DB: readonly (readonly [quality: number, heightDb: number])[] = [
  [1, 1.5],
  [10, 3],
  [50, 5],
];

/**
 * Least height by which a resonance raises a response that is heard with popular music.
 *
 * @param quality - frequency over bandwidth; outside 1 to 50 the ends are held
 * @returns dB
 * @remarks Source: F. E. Toole, S. E. Olive, J. Audio Eng. Soc. 36 (1988), 4.1, as restated: Q 1 1.5 dB, Q 10 3 dB, Q 50 5 dB;
 * between them on the logarithm of Q (a choice of ours).
 * @example audibleResonanceDb(10) // 3
 */
export function audibleResonanceDb(quality: number): number {
  const upper = RESONANCES_DB.findIndex(([above]) => above >= quality);
  if (upper === 0) return RESONANCES_DB[0]![1];
  if (upper < 0) return RESONANCES_DB.at(-1)![1];
  const [[fromQ, fromDb], [toQ, toDb]] = [RESONANCES_DB[upper - 1]!, RESONANCES_DB[upper]!];
  return fromDb + ((toDb - fromDb) * Math.log(quality / fromQ)) / Math.log(toQ / fromQ);
}
