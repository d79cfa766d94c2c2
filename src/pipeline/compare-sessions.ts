import { compareResults } from "../comparison/changes/compare-results.js";
import type { CompareOptions } from "../comparison/changes/pair-up.js";
import { InputError } from "../errors.js";
import { tellChanges } from "../findings/changes/tell-changes.js";
import type { Results } from "../model.js";
import type { Changes } from "../schema/changes.js";
import { nearestName } from "../schema/nearest-name.js";

export type { CompareOptions };

/** A microphone put back by a mark on the floor and a string, twice: a choice of ours. */
export const PLACEMENT_M = 0.02;

/**
 * Compares two sessions, or two monitors of one or of two sessions.
 *
 * @param after - the same object as `before` where both are one session
 * @throws {InputError} if a monitor that is named does not exist, or nothing can be paired
 */
export function compareSessions(
  before: Results,
  after: Results,
  options: CompareOptions & { readonly version: string },
): Changes {
  const { version, ...rest } = options;
  if (options.monitors) {
    refuseUnknown(before, options.monitors.before, "--monitor");
    refuseUnknown(after, options.monitors.after, "--against");
  }
  const compared = compareResults(before, after, rest);
  if (compared.pairs.every(({ kind }) => kind === "monitor")) throw nothingPaired(compared.unpaired);
  return { schema: "carrywell/changes/1", version, ...compared, says: tellChanges(compared) };
}

function refuseUnknown({ monitors }: Results, id: string, option: string): void {
  const known = monitors.map((one) => one.id);
  if (known.includes(id)) return;
  const nearest = nearestName(id, known);
  throw new InputError(`There is no monitor "${id}".`, {
    where: option,
    remedy: nearest === null ? `use one of: ${known.join(", ")}` : `did you mean "${nearest}"?`,
  });
}

function nothingPaired(unpaired: Changes["unpaired"]): InputError {
  // A recording that was refused is why a monitor was not measured.
  const refused = unpaired.find(({ what }) => what === "recording");
  const [first] = refused ? [refused] : unpaired;
  return new InputError("Nothing was measured on both sides, so nothing can be compared.", {
    where: first ? `${first.id} (${first.in}): ${first.because}` : "both sessions",
    remedy: refused
      ? "mend what is said of the recordings by the command check, or record again"
      : "give sessions with the same ids of monitors and positions, or name the two monitors with --monitor and --against",
  });
}
