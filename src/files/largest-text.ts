/**
 * Far above any session, recipe or table; what is larger is a recording given by mistake, or worse.
 *
 * A megabyte of the most branching JSON takes a quarter of a gigabyte to read with its positions, and two seconds.
 */
export const LARGEST_TEXT = 2 ** 20;
