/**
 * Reflections up to this delay are early.
 *
 * Source: ITU-R BS.1116-3 and EBU Tech 3276, from memory.
 */
export const EARLY_UNTIL_S = 0.015;
