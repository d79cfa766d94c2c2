import type { Finding, Session } from "../model.js";
import type { Take } from "./capture.js";
import { bothSpeakers } from "./faults/both-speakers.js";
import { withoutDuplicates } from "./faults/duplicates.js";
import { polarityFaults } from "./faults/polarity.js";
import { sidesOfTakes } from "./faults/sides.js";
import { swappedChannels } from "./faults/swapped-channels.js";

/**
 * Finds what only shows when the recordings of a session are held against each other.
 *
 * @param takes - of all recordings, in the order of the session
 * @returns the takes that may be used, and what was found
 */
export function sessionFaults(
  session: Session,
  takes: readonly Take[],
  speedOfSound: number,
): { takes: Take[]; findings: Finding[] } {
  const distinct = withoutDuplicates(takes);
  const pairs = sidesOfTakes(distinct.takes);
  const same = bothSpeakers(session, pairs);
  // Where left and right are one sound, neither their polarity nor their order says anything.
  const apart = pairs.filter(({ monitor }) => !same.some(({ monitors }) => monitors.includes(monitor)));
  return {
    takes: distinct.takes,
    findings: [
      ...distinct.findings,
      ...same,
      ...polarityFaults(distinct.takes, apart),
      ...swappedChannels(session, apart, speedOfSound),
    ],
  };
}
