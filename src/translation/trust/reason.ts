import type { GradeLimit, ReasonCode } from "../limits.js";

export type Grade = "believe" | "care" | "blind";

/** Why a band is not simply believed. */
export interface Reason {
  readonly code: ReasonCode;
  /** What this reason alone makes of the band; null where nothing is known. */
  readonly grade: "care" | "blind" | null;
  readonly value: number | null;
  /** The limit that was crossed. */
  readonly limit: number | null;
  readonly unit: string | null;
}

/**
 * Holds a value against a row of the table.
 *
 * @param own - limits for this band where the row's do not hold everywhere
 * @returns nothing within the limit, or outside the row's bands
 */
export function against(
  row: GradeLimit,
  nominalHz: number,
  value: number | null,
  own: { readonly care: number; readonly blind: number | null } = row,
): Reason[] {
  if (value === null || nominalHz < row.rangeHz[0] || nominalHz > row.rangeHz[1]) return [];
  const beyond = (limit: number): boolean => (row.side === "above" ? value > limit : value < limit);
  const grade = own.blind !== null && beyond(own.blind) ? "blind" : beyond(own.care) ? "care" : null;
  if (grade === null) return [];
  return [{ code: row.code, grade, value, limit: grade === "blind" ? own.blind : own.care, unit: row.unit }];
}
