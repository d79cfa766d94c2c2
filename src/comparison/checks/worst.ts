import type { Check } from "../../model.js";
import { overLimit } from "../../standards/real-difference.js";

/** One place at which a limit was looked at. */
export interface Judged {
  readonly bandHz: number | null;
  /** Null where it could not be judged. */
  readonly value: number | null;
  /** Standard uncertainty of the value; a limit that is broken by less than twice this is not known to be broken. */
  readonly uncertainty: number | null;
}

type Outcome = Pick<Check, "value" | "pass" | "reason" | "bandHz">;

/**
 * The worst of several bands against one limit.
 *
 * Bands that could not be judged are passed over and counted: one that is known to break the limit breaks it whatever the
 * others are, but a pass among some only says so of those.
 *
 * @param most - the highest value that passes
 */
export function worst(bands: readonly Judged[], most: number): Outcome {
  const known = bands.filter((band): band is Judged & { value: number } => band.value !== null);
  const first = known[0];
  if (!first) return unknown("no-band-could-be-judged");
  const highest = known.reduce((a, b) => (b.value > a.value ? b : a), first);
  const undecided = overLimit(highest.value, most, highest.uncertainty) === "cannot-tell";
  const missing = bands.length - known.length;
  return {
    value: highest.value,
    pass: undecided ? null : highest.value <= most,
    reason: undecided ? "within-uncertainty" : missing === 0 ? null : `${missing}-of-${bands.length}-bands-not-judged`,
    bandHz: highest.bandHz,
  };
}

/** A limit that could not be held against anything. */
export function unknown(reason: string): Outcome {
  return { value: null, pass: null, reason, bandHz: null };
}
