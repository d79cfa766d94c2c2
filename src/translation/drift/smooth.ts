import { BANDS, type Curve } from "../bands.js";
import { SMOOTHING } from "../limits.js";

const BAND_OCTAVES = 1 / 3;

/**
 * Smooths a deviation to what can be put into a mix: over half an octave below 100 Hz, two thirds up to 300 Hz, an octave above.
 *
 * A window takes whole bands and parts of bands, the deviation being the same all over a band. Decibels are averaged, not
 * powers: the straight slope of a roll-off then stays where it is, and a deviation and its mirror image stay each other's.
 *
 * @returns null where the band itself is not known; neighbours that are not known, or lie past the ends, do not count
 * @example smooth(all 2 dB) // all 2 dB
 */
export function smooth(curve: Curve): (number | null)[] {
  return BANDS.map(({ nominalHz }, k) => {
    if (curve[k] == null) return null;
    const { octaves } = SMOOTHING.find(({ belowHz }) => nominalHz < belowHz)!;
    const half = octaves / 2 / BAND_OCTAVES;
    let sum = 0;
    let weights = 0;
    for (let n = 0; n < BANDS.length; n++) {
      const value = curve[n];
      // Share of the band, from n - 1/2 to n + 1/2, that the window from k - half to k + half covers.
      const weight = Math.min(n + 0.5, k + half) - Math.max(n - 0.5, k - half);
      if (value == null || weight <= 0) continue;
      sum += weight * value;
      weights += weight;
    }
    return sum / weights;
  });
}
