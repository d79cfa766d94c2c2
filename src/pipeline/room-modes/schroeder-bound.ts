import { schroederFrequency } from "../../standards/schroeder-frequency.js";

/** Standard uncertainty of a volume that was stated, as a share: niches, furniture, a tape measure. A choice of ours. */
const VOLUME_SHARE = 0.05;

/**
 * The Schroeder frequency with its standard uncertainty.
 *
 * How far the decay times spread counts in full, not over their number: they differ by octave and place, and which of them holds where
 * modes begin to overlap nobody knows.
 *
 * @param times - decay times of the octaves around it at all places, s
 * @returns null where no time or no volume is known; its uncertainty is null where there is one time only
 */
export function schroederBound(
  times: readonly number[],
  volumeM3: number | null,
): { readonly frequencyHz: number; readonly uncertaintyHz: number | null } | null {
  if (volumeM3 === null || times.length === 0) return null;
  const meanS = times.reduce((sum, timeS) => sum + timeS, 0) / times.length;
  const frequencyHz = schroederFrequency(meanS, volumeM3);
  if (times.length < 2) return { frequencyHz, uncertaintyHz: null };
  const squares = times.reduce((sum, timeS) => sum + (timeS - meanS) ** 2, 0);
  const spread = Math.sqrt(squares / (times.length - 1)) / meanS;
  // It goes with the root of time over volume: half of each share.
  return { frequencyHz, uncertaintyHz: 0.5 * Math.hypot(spread, VOLUME_SHARE) * frequencyHz };
}
