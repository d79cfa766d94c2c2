/** Numbers as people read them. Only the report rounds, and it rounds here. */

/** What stands where a value is not known. */
export const unknownMark = "—";

/** A number with a fixed count of decimals and a true minus sign; "not known" for null. */
export function fixed(value: number | null, decimals: number): string {
  if (value === null) return "not known";
  const text = value.toFixed(decimals);
  if (Number(text) === 0) return (0).toFixed(decimals);
  return text.replace("-", "\u2212");
}

/** As `fixed`, with its sign always shown. */
export function signed(value: number | null, decimals: number): string {
  const text = fixed(value, decimals);
  return value !== null && Number(value.toFixed(decimals)) > 0 ? `+${text}` : text;
}

/** A number to so many significant figures, without trailing noise or an exponent. */
export function significant(value: number, figures: number): string {
  return value === 0 ? "0" : fixed(value, decimalsOf(value, figures));
}

/** Decimals that a number of so many significant figures has. */
export function decimalsOf(value: number, figures: number): number {
  return value === 0 ? 0 : Math.min(6, Math.max(0, figures - 1 - Math.floor(Math.log10(Math.abs(value)))));
}

/** A frequency as the trade says it: 63 Hz, 17.8 kHz. */
export function hertz(frequencyHz: number | null): string {
  if (frequencyHz === null) return "not known";
  if (frequencyHz < 999.5) return `${trimmed(frequencyHz)} Hz`;
  return `${trimmed(frequencyHz / 1000)} kHz`;
}

/** A band's nominal midband frequency as it stands on an axis: 31.5, 500, 1k, 1.25k. */
export function bandLabel(nominalHz: number): string {
  return nominalHz < 1000 ? String(nominalHz) : `${nominalHz / 1000}k`;
}

/** An expanded uncertainty (twice the standard one); one that would round to nothing is "under" the last place. */
export function expanded(standard: number, decimals: number): string {
  const text = fixed(2 * standard, decimals);
  return Number(text) > 0 ? text : `under ${fixed(10 ** -decimals, decimals)}`;
}

/**
 * A value and its expanded uncertainty.
 *
 * @example withUncertainty(12, 1.5, 0) // "12 ± 3"
 */
export function withUncertainty(value: number | null, standard: number | null, decimals: number): string {
  if (value === null) return "not known";
  return standard === null
    ? fixed(value, decimals)
    : `${fixed(value, decimals)} \u00b1 ${expanded(standard, decimals)}`;
}

/**
 * Keeps numbers and their units on one line.
 *
 * @example held("up to 500 Hz") // "up to 500\u00a0Hz"
 */
export function held(text: string): string {
  return text
    .replace(/(\d) (?=(?:±|dB|k?Hz|ppm|°C|%|[µmc]?[sm]³?)(?![\p{L}\p{N}]))/gu, "$1\u00a0")
    .replace(/± /g, "±\u00a0");
}

/** Names in a row as a sentence has them: "a, b and c". */
export function listed(names: readonly string[]): string {
  const last = names.at(-1);
  if (last === undefined) return "none";
  return names.length === 1 ? last : `${names.slice(0, -1).join(", ")} and ${last}`;
}

/** As `listed`, of which one holds; names may hold an "and" themselves. */
export function listedOr(names: readonly string[]): string {
  return names.length < 2 ? listed(names) : `${names.slice(0, -1).join(", ")} or ${names.at(-1)}`;
}

function trimmed(value: number): string {
  return String(Number(value.toPrecision(3)));
}

/** The text with a capital; a file's name stays as it is. */
export function capital(text: string): string {
  if (/^[^\s:]+\.[a-z0-9]{2,4}\b/iu.test(text)) return text;
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A sentence with its capital and its full stop. */
export function closed(text: string): string {
  return /[.!?]$/.test(text) ? capital(text) : `${capital(text)}.`;
}
