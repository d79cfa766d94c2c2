/**
 * Upper edges of the 24 critical bands, Hz: band z reaches from z - 1 to z Bark.
 *
 * Source: E. Zwicker, J. Acoust. Soc. Am. 33 (1961), table of critical bands, from memory.
 */
export const CRITICAL_BAND_EDGES_HZ: readonly number[] = [
  100, 200, 300, 400, 510, 630, 770, 920, 1080, 1270, 1480, 1720, 2000, 2320, 2700, 3150, 3700, 4400, 5300, 6400, 7700,
  9500, 12_000, 15_500,
];
