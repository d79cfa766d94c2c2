/** Shares of the sample rate: flat up to the first, nothing at the second. */
const FLAT_TO = 0.455;
const NOTHING_AT = 0.5;

/**
 * Gives the level to which an ideal response is let through near half the sample rate.
 *
 * A response that is cut off there rings on for seconds, before and after; one that fades over a twentieth of the
 * sample rate is done within a millisecond or two.
 *
 * @param cyclesPerSample - 0 to 0.5
 * @returns linear, 1 up to 0.455, 0 at 0.5
 * @example bandLimit(0.4) // 1
 */
export function bandLimit(cyclesPerSample: number): number {
  if (cyclesPerSample <= FLAT_TO) return 1;
  return 0.5 + 0.5 * Math.cos((Math.PI * (cyclesPerSample - FLAT_TO)) / (NOTHING_AT - FLAT_TO));
}
