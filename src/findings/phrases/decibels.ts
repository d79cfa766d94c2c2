import { withUncertainty } from "../../words/numbers.js";

/** A value and its expanded uncertainty, dB. */
export interface Decibels {
  readonly valueDb: number;
  /** Expanded. */
  readonly uncertaintyDb: number | null;
}

/** A size without its sign, with its uncertainty. */
export const decibels = ({ valueDb, uncertaintyDb }: Decibels): string =>
  `${withUncertainty(Math.abs(valueDb), uncertaintyDb === null ? null : uncertaintyDb / 2, 1)} dB`;
