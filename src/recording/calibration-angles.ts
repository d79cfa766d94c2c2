/** A number of degrees that is not a temperature: "0°", "90 deg", "30 degrees". */
const ANGLE = /(?<![\d.,])(\d{1,3})\s*(?:[°º](?!\s*[CF]\b)|deg(?:rees?|\.)?(?![a-z])(?!\s*[CF]\b))/gi;
const ON_AXIS = /\bon[\s_-]?axis\b/i;

/**
 * Finds the angles of incidence that words name, in their order: "Hz  0°  90°" names two.
 *
 * @returns degrees, 0 to 180
 */
export function anglesIn(words: string): number[] {
  const named = [...words.replaceAll("_", " ").matchAll(ANGLE)].map(([, degrees]) => Number(degrees));
  const angles = named.filter((degrees) => degrees <= 180);
  return angles.length === 0 && ON_AXIS.test(words) ? [0] : angles;
}
