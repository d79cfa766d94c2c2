/** Reading single values out of curves, for tables and sentences. */

/** Third-octave midbands from 25 Hz to 16 kHz: nominal and exact (base ten). Every one lies on the frequency grid. */
export const thirdOctaves: readonly { readonly nominalHz: number; readonly exactHz: number }[] = [
  25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000,
  5000, 6300, 8000, 10_000, 12_500, 16_000,
].map((nominalHz, index) => ({ nominalHz, exactHz: 1000 * 10 ** ((index - 16) / 10) }));

/**
 * The value of a curve at the grid point nearest to a frequency, null where none lies within half a semitone.
 *
 * @param frequencyHz - rising
 */
export function valueAt(
  frequencyHz: readonly number[],
  curve: readonly (number | null)[],
  atHz: number,
): number | null {
  let nearest = -1;
  let distance = Math.log(2) / 24;
  frequencyHz.forEach((frequency, index) => {
    const away = Math.abs(Math.log(frequency / atHz));
    if (away <= distance) {
      nearest = index;
      distance = away;
    }
  });
  return nearest < 0 ? null : (curve[nearest] ?? null);
}
