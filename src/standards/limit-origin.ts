/** Where a published figure was met, and how far it can be leant on. */
export interface LimitOrigin {
  /** Read in a restatement, remembered, chosen by us, or brought by the user. The paid or linked texts were not opened. */
  readonly origin: "found" | "memory" | "ours" | "own";
  readonly confidence: "high" | "medium" | "low";
  /** Two figures are in circulation. */
  readonly disputed?: boolean;
  readonly note: string;
}

/** No pass or fail may hang on a limit that is remembered, disputed, doubtful or chosen by us. */
export function isAdvisory({ origin, confidence, disputed }: LimitOrigin): boolean {
  return origin === "memory" || origin === "ours" || confidence === "low" || disputed === true;
}
