/**
 * When a difference of two measured values is real, when there is none, and when nobody can tell.
 *
 * Source: expanded uncertainty with the coverage factor k = 2, about 95 % for a normal error: GUM (JCGM 100:2008) 6.2 and
 * G.6.6, from memory, high confidence. To hold it against what is just noticeable, in the three ways below, is a choice of
 * ours.
 */

/** k: an expanded uncertainty is so many standard uncertainties. */
const COVERAGE_FACTOR = 2;

export type DifferenceVerdict = "real" | "none" | "cannot-tell";

/**
 * Expanded uncertainty of a sum or difference of values whose errors are independent.
 *
 * @param uncertainties - standard uncertainties, all in one unit, none negative; null where one is not known
 * @returns k times the root of the sum of squares, in the same unit; null when one of them is not known
 * @throws {RangeError} if an uncertainty is negative or NaN
 * @example expandedUncertainty([0.3, 0.4]) // 1
 */
export function expandedUncertainty(uncertainties: readonly (number | null)[]): number | null {
  let squares = 0;
  for (const uncertainty of uncertainties) {
    if (uncertainty === null) return null;
    if (!(uncertainty >= 0)) throw new RangeError(`uncertainties must not be negative, found ${uncertainty}`);
    squares += uncertainty * uncertainty;
  }
  return COVERAGE_FACTOR * Math.sqrt(squares);
}

/**
 * Judges a difference by its uncertainty and by what is just noticeable.
 *
 * Real: larger than both. None: neither the difference nor what is not known of it could be noticed. Everything between
 * cannot be told with these data; better data might.
 *
 * @param difference - any sign, in the unit of the others; null when it is not known
 * @param uncertainties - standard uncertainties of the two values, or the one of their difference; null where not known
 * @param justNoticeable - 0 or more; 0 where everything counts, and then nothing is ever "none" but an exact zero
 * @throws {RangeError} if an uncertainty or `justNoticeable` is negative or NaN
 * @example realDifference(-3, [0.3, 0.4], 1) // "real": 3 > 1 = 2 sqrt(0.09 + 0.16)
 */
export function realDifference(
  difference: number | null,
  uncertainties: readonly (number | null)[],
  justNoticeable: number,
): DifferenceVerdict {
  if (!(justNoticeable >= 0)) throw new RangeError(`justNoticeable must not be negative, found ${justNoticeable}`);
  const expanded = expandedUncertainty(uncertainties);
  if (difference === null || expanded === null) return "cannot-tell";
  const size = Math.abs(difference);
  if (size > Math.max(expanded, justNoticeable)) return "real";
  return size <= justNoticeable && expanded <= justNoticeable ? "none" : "cannot-tell";
}

export type ExcessVerdict = "over" | "within" | "cannot-tell";

/**
 * Judges whether a size lies over a limit.
 *
 * Over: by more than the expanded uncertainty. Cannot tell: over, but by less, or with an uncertainty that is not known.
 *
 * @param size - in the limit's unit
 * @param uncertainty - standard uncertainty of the size; null where not known
 * @example overLimit(3.4, 3, 0.1) // "over"
 * @example overLimit(3.1, 3, 0.1) // "cannot-tell"
 */
export function overLimit(size: number, limit: number, uncertainty: number | null): ExcessVerdict {
  if (size <= limit) return "within";
  const expanded = expandedUncertainty([uncertainty]);
  return expanded !== null && size - limit > expanded ? "over" : "cannot-tell";
}
