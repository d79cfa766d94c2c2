/** Third octaves that must lie between two dips that are passed over: a choice of ours. */
const LEAST_BETWEEN_DIPS = 3;

/**
 * Walks along a curve from a band for as long as it stands at or above a limit, over single bands that dip under it.
 *
 * A dip one third octave wide is a place in the room, not the end of a loudspeaker. Only one is passed over for each octave
 * walked: a curve that dips in every second band has no end to be found behind them.
 *
 * @param levelDb - by third octave, rising; null where not known, which ends the walk
 * @param start - index of a band
 * @param step - 1 upward, -1 downward
 * @returns the last band that stands, and the dips between, by index; null where the first band does not stand
 */
export function standAbove(
  levelDb: readonly (number | null)[],
  start: number,
  step: 1 | -1,
  limitDb: number,
): { last: number; dips: number[] } | null {
  const stands = (k: number): boolean => (levelDb[k] ?? Number.NEGATIVE_INFINITY) >= limitDb;
  if (!stands(start)) return null;
  const dips: number[] = [];
  let last = start;
  for (;;) {
    const next = last + step;
    if (stands(next)) {
      last = next;
      continue;
    }
    const lastDip = dips.at(-1);
    const farEnough = lastDip === undefined || Math.abs(next - lastDip) >= LEAST_BETWEEN_DIPS;
    if (levelDb[next] == null || !stands(next + step) || !farEnough) return { last, dips };
    dips.push(next);
    last = next + step;
  }
}
