import { hertz } from "../../words/numbers.js";

export type Range = readonly [number, number];

export const isOneBand = ([fromHz, toHz]: Range): boolean => Math.abs(toHz / fromHz - 1) < 0.01;

export const range = (band: Range): string =>
  isOneBand(band) ? `at ${hertz(band[0])}` : `from ${hertz(band[0])} to ${hertz(band[1])}`;

/** Where in a range the worst is; nothing for a single band. */
export const worstAt = (band: Range, bandHz: number): string => (isOneBand(band) ? "" : ` at ${hertz(bandHz)}`);

/** An end of a range is no sharper than a hertz. */
export const about = (frequencyHz: number): string => `about ${hertz(Math.round(frequencyHz))}`;
