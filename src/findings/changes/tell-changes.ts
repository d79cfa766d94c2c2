import type { Compared, Said } from "../../schema/changes.js";
import { monitorsOf, type Teller } from "./tell.js";
import { tellBands } from "./tell-bands.js";
import { tellClarity } from "./tell-clarity.js";
import { tellDecay } from "./tell-decay.js";
import { tellOpen } from "./tell-open.js";
import { tellReflections } from "./tell-reflections.js";
import { tellSingle } from "./tell-single.js";
import { tellTrust } from "./tell-trust.js";

const TELLERS: readonly Teller[] = [
  tellTrust,
  tellDecay,
  tellBands,
  tellSingle,
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
  return withRemedy(
    TOPICS.flatMap((topic) => said.filter((one) => one.topic === topic).sort((a, b) => rank(b) - rank(a))),
    compared,
  );
}

function rank({ size }: Said): number {
  return size ?? Infinity;
}

/** What would make more of it tellable is said once. */
function withRemedy(said: readonly Said[], { placementM, compares }: Compared): Said[] {
  const first = said.findIndex(({ topic }) => topic === "unknown");
  const remedy =
    placementM > 0 && compares === "sessions"
      ? "leave the microphone standing from one measurement to the next, and say so with --placement 0; record two takes at each place"
      : "record two takes or more at each place, on both sides";
  return said.map((one, n) => (n === first ? { ...one, remedy } : one));
}
