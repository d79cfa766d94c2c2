import type { ChangedQuantity } from "../../schema/changes.js";
import { amount } from "../../standards/just-noticeable.js";
import { expandedUncertainty } from "../../standards/real-difference.js";
import * as because from "./because.js";
import { type ChanceLimits, isSharp, type Judgeable } from "./chance-limits.js";
import type { Reading } from "./reading.js";

/** What a reading is judged by; null where it cannot be. */
export function judgeable({ before, after, uncertainty, justNoticeable, reason }: Reading): Judgeable | null {
  if (before === null || after === null || uncertainty === null || !(uncertainty > 0) || reason !== null) return null;
  return { uncertainty, justNoticeable: amount(justNoticeable, before, after) };
}

/**
 * Judges one reading.
 *
 * Real: larger than `needed`. None: the difference is under the just noticeable one, and so is, where the measurement is not
 * sharp, all that it may be by its expanded uncertainty. Everything else cannot be told. A real change is better or worse only where it
 * also brings the quantity noticeably nearer to its goal, or farther from it.
 *
 * @param limits - of everything that is judged together
 */
export function judge(reading: Reading, limits: ChanceLimits): ChangedQuantity {
  const { quantity, bandHz, fraction, atS, unit, before, after, uncertainty } = reading;
  const difference = before === null || after === null ? null : after - before;
  const held = judgeable(reading);
  const base = {
    ...{ quantity, bandHz, fraction, atS, unit, before, after, missing: reading.missing ?? null, difference },
    uncertainty: expandedUncertainty([uncertainty]),
    justNoticeable: before === null || after === null ? null : amount(reading.justNoticeable, before, after),
  };
  if (held === null || difference === null) {
    return { ...base, needed: null, change: "cannot-tell", verdict: "cannot-tell", because: because.notKnown(reading) };
  }
  const needed = limits.needed(held);
  const size = Math.abs(difference);
  if (size > needed) {
    const verdict = side(reading, held.justNoticeable);
    return {
      ...base,
      needed,
      change: "real",
      verdict: verdict ?? "cannot-tell",
      because: because.real(reading, needed, verdict),
    };
  }
  const most = isSharp(held) ? size : size + expandedUncertainty([held.uncertainty])!;
  if (most <= held.justNoticeable) {
    return { ...base, needed, change: "none", verdict: "no-real-change", because: because.none(reading, held) };
  }
  return { ...base, needed, change: "cannot-tell", verdict: "cannot-tell", because: because.open(reading, needed) };
}

/** Nearer to the goal or farther from it, by more than is just noticeable; null where it is neither or there is no goal. */
function side({ goal }: Reading, justNoticeable: number): "better" | "worse" | null {
  const nearer = goal === null ? 0 : goal.before - goal.after;
  if (Math.abs(nearer) <= justNoticeable) return null;
  return nearer > 0 ? "better" : "worse";
}
