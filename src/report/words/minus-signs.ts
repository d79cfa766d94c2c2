/**
 * Hyphens before figures, as plain texts have them, become true minus signs; those of ranges stay.
 *
 * @example minusSigns("falling to -7.5 dB, 50-250 Hz") // "falling to −7.5 dB, 50-250 Hz"
 */
export function minusSigns(text: string): string {
  return text.replace(/(^|[\s(])-(?=\d)/g, "$1\u2212");
}
