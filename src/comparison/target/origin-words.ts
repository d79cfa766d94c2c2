import type { LimitOrigin } from "../../standards/limit-origin.js";

type Stretch = LimitOrigin & { readonly fromHz: number; readonly toHz: number };

/** Says of each stretch of a mask where it comes from. */
export function originWords(limits: readonly Stretch[]): string {
  return [...limits]
    .sort((a, b) => a.fromHz - b.fromHz)
    .map((limit) => `${limit.fromHz}-${limit.toHz} Hz ${origin(limit)} (${limit.note})`)
    .join(", ");
}

/** How a limit came to be known, in words. */
export function origin({ origin, confidence, disputed }: LimitOrigin): string {
  if (origin === "own") return "stated in the session";
  if (origin === "ours") return "a choice of ours";
  const how = origin === "memory" ? "from memory" : "read in a restatement";
  return `${how}, ${confidence} confidence${disputed === true ? ", disputed" : ""}`;
}
