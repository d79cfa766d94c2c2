import type { Compared, Said } from "../../schema/changes.js";
import { joinMonitors } from "./join-monitors.js";
import { withRemedies } from "./remedies.js";
import { monitorsOf, type Teller } from "./tell.js";
import { tellBands } from "./tell-bands.js";
import { tellClarity } from "./tell-clarity.js";
import { tellDecay } from "./tell-decay.js";
import { tellLateSound } from "./tell-late-sound.js";
import { tellModes } from "./tell-modes.js";
import { tellOpen } from "./tell-open.js";
import { tellReflections } from "./tell-reflections.js";
import { tellSingle } from "./tell-single.js";
import { tellTrust } from "./tell-trust.js";

const TELLERS: readonly Teller[] = [
  tellTrust,
  tellDecay,
  tellBands,
  tellSingle,
  tellModes,
  tellLateSound,
  tellReflections,
  tellClarity,
  tellOpen,
];

const TOPICS: readonly Said["topic"][] = ["better", "worse", "changed", "same", "unknown"];

/**
 * Says what a comparison comes to: only what was judged, the largest first.
 */
export function tellChanges(compared: Compared): Said[] {
  const said = monitorsOf(compared).flatMap((changes) => TELLERS.flatMap((tell) => tell(changes)));
  const ordered = TOPICS.flatMap((topic) =>
    joinMonitors(said.filter((one) => one.topic === topic).sort((a, b) => rank(b) - rank(a))),
  );
  return withRemedies(ordered, compared);
}

function rank({ size }: Said): number {
  return size ?? Infinity;
}
