import { fixed } from "../../words/numbers.js";

export const seconds = (value: number): string => `${fixed(value, value < 1 ? 2 : 1)} s`;

/** Minutes and seconds, as a player shows them. */
export const clock = (value: number): string =>
  value < 60 ? seconds(value) : `${Math.floor(Math.round(value) / 60)} min ${Math.round(value) % 60} s`;

export const milliseconds = (valueS: number): string => `${fixed(1000 * valueS, 1)} ms`;
