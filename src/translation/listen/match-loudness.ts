/** What a version is before any gain. */
export interface Unmatched {
  readonly loudnessLufs: number | null;
  readonly truePeakDbtp: number | null;
}

export interface Matched {
  readonly gainDb: number;
  readonly matched: boolean;
  readonly reason: "too-quiet-to-match" | "nothing-left" | null;
}

/** No file's true peak passes this. */
export const TRUE_PEAK_LIMIT_DBTP = -1;
/** What lies further under the mix is left quieter: lifted so far, nobody would hear what is gone. A choice of ours. */
const MOST_LIFT_DB = 20;

/**
 * Makes versions of a mix equally loud, as loud as their peaks allow and no louder than the mix itself: no limiter is needed.
 *
 * @param mixLufs - loudness of the mix itself
 * @returns one gain for each version, and the loudness that those which are matched share
 * @example two versions at -14 and -20 LUFS with peaks far down, the mix at -14: gains 0 and 6 dB
 */
export function matchLoudness(
  mixLufs: number,
  versions: readonly Unmatched[],
): { loudnessLufs: number; gains: Matched[] } {
  const own = versions.map(({ loudnessLufs }): Matched => {
    if (loudnessLufs === null) return { gainDb: 0, matched: false, reason: "nothing-left" };
    const gainDb = mixLufs - loudnessLufs;
    return gainDb > MOST_LIFT_DB
      ? { gainDb: MOST_LIFT_DB, matched: false, reason: "too-quiet-to-match" }
      : { gainDb, matched: true, reason: null };
  });
  const room = versions.map(({ truePeakDbtp }, n) =>
    truePeakDbtp === null ? Infinity : TRUE_PEAK_LIMIT_DBTP - (truePeakDbtp + own[n]!.gainDb),
  );
  const commonDb = Math.min(0, ...room);
  return {
    loudnessLufs: mixLufs + commonDb,
    gains: own.map((one) => ({ ...one, gainDb: one.gainDb + commonDb })),
  };
}
