/**
 * Longest decay of a single low mode that stays unheard, 60 dB, by frequency.
 *
 * Source: M. Stephenson, thesis, 2012 (32 Hz: 0.85 s; abstract read); B. Fazenda et al., J. Acoust. Soc. Am. 137 (2015), music
 * at 63 Hz: 0.51 s, from memory; M. Avis et al. 2007, Q = 16 (1.1, 0.56, 0.28 s at 32, 63, 125 Hz; read in a restatement). The
 * values between, and the choice between sources, are ours; below 32 Hz along Q = 16, untested.
 */
export const AUDIBLE_MODE_S: readonly (readonly [frequencyHz: number, timeS: number])[] = [
  [20, 1.4],
  [25, 1.1],
  [32, 0.85],
  [40, 0.72],
  [50, 0.6],
  [63, 0.51],
  [80, 0.4],
  [100, 0.33],
  [125, 0.28],
  [160, 0.22],
  [200, 0.2],
  [250, 0.2],
];

/** Where the longest unheard decay comes from, in a few words. */
export const MODE_SOURCE =
  "longest unheard decay of a low mode, Stephenson 2012 and Fazenda et al. 2015 (partly from memory)";

/** From where to where the table says something, Hz. */
const AUDIBLE_MODE_RANGE_HZ = [20, 250] as const;

/**
 * Longest decay of a mode that stays unheard, straight between the table's points on log frequency and log time.
 *
 * @param frequencyHz - Hz
 * @returns seconds; null outside 20 to 250 Hz
 * @example audibleModeS(63) // 0.51
 */
export function audibleModeS(frequencyHz: number): number | null {
  const upper = AUDIBLE_MODE_S.findIndex(([hz]) => hz >= frequencyHz);
  if (upper < 0 || frequencyHz < AUDIBLE_MODE_RANGE_HZ[0]) return null;
  const [toHz, toS] = AUDIBLE_MODE_S[upper]!;
  const [fromHz, fromS] = AUDIBLE_MODE_S[Math.max(0, upper - 1)]!;
  if (toHz === fromHz) return toS;
  const share = Math.log(frequencyHz / fromHz) / Math.log(toHz / fromHz);
  return fromS * (toS / fromS) ** share;
}
