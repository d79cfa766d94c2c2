import { type Fingerprint, sameRecording } from "../../recording/fingerprint.js";
import type { Finding } from "../../model.js";
import type { Take } from "../capture.js";
import * as findings from "../findings.js";

/** A recording's takes, all with one fingerprint. */
interface Heard {
  readonly takes: readonly Take[];
  readonly fingerprint: Fingerprint;
}

/**
 * Finds recordings that are one and the same under two entries.
 *
 * Of two that claim to be takes of one thing the later is left out: a copy agrees perfectly and tells nothing. Where they
 * claim to be different things one of them is wrong, and nothing says which: both are left out.
 *
 * @returns the takes that may be used
 */
export function withoutDuplicates(takes: readonly Take[]): { takes: Take[]; findings: Finding[] } {
  const recordings = [...new Set(takes.map(({ recording }) => recording))];
  const heard = recordings.map((recording): Heard => {
    const own = takes.filter((take) => take.recording === recording);
    return { takes: own, fingerprint: own[0]!.fingerprint };
  });
  const found: Finding[] = [];
  const left = new Set<Take["recording"]>();
  heard.forEach((later, index) => {
    for (const earlier of heard.slice(0, index)) {
      const same = sameRecording(earlier.fingerprint, later.fingerprint);
      if (!same) continue;
      const [first, second] = [earlier.takes[0]!.recording, later.takes[0]!.recording];
      const isRepeat = claimOf(earlier) === claimOf(later);
      found.push(findings.duplicateTake(first, second, gainBetween(earlier, later) ?? same.gainDb, isRepeat));
      left.add(second);
      if (!isRepeat) left.add(first);
      break;
    }
  });
  return { takes: takes.filter(({ recording }) => !left.has(recording)), findings: found };
}

/** By the peaks: rounding to fewer bits adds to the silence, by which copies are known, but not to them. */
function gainBetween(earlier: Heard, later: Heard): number | null {
  const [a, b] = [earlier.takes[0]!.peakDbfs, later.takes[0]!.peakDbfs];
  return a === null || b === null ? null : b - a;
}

/** What a recording is said to be of. */
function claimOf({ takes }: Heard): string {
  const { monitor, position, channel } = takes[0]!.recording;
  return JSON.stringify([monitor, position, channel ?? "reel"]);
}
