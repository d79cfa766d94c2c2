/**
 * Value between two points that are joined by a straight line over the logarithm of frequency.
 *
 * @param frequencyHz - between `fromHz` and `toHz`, all greater than 0; equal ends give the first value
 * @example straightOverLog(1000, 100, 10_000, 0, 2) // 1
 */
export function straightOverLog(frequencyHz: number, fromHz: number, toHz: number, from: number, to: number): number {
  if (frequencyHz === fromHz || fromHz === toHz) return from;
  if (frequencyHz === toHz) return to;
  return from + (Math.log(frequencyHz / fromHz) / Math.log(toHz / fromHz)) * (to - from);
}
