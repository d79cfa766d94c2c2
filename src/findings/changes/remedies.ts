import type { Compared, Said } from "../../schema/changes.js";

/** What to do about what has become worse, by what it is read off. Common practice, no source. */
const AGAINST: Readonly<Record<string, string>> = {
  ...same(
    ["t20S", "t30S", "lateS", "modeT60S", "roomDecayS"],
    "take the change back and measure again, to be sure that it is the cause; then damp what it has laid bare there",
  ),
  ...same(
    ["targetDb", "roomLevelDb"],
    "set the monitor's own tone controls anew, or move it by a hand's breadth, and measure again; what held the tone up or down before may have been a resonance or a surface that is gone",
  ),
  minus6Hz:
    "set the monitor's own low control anew, or move it nearer to the wall behind it, and measure again; a resonance or a surface may have carried it further down before",
  leftRightDb:
    "look for what the change has made unlike on the two sides: panels, distances, the settings of the boxes",
  leftRightArrivalS: "measure the way from each box to the microphone with a tape, and even them out",
  reflectionDb: "find the surface by the detour, half a metre for every 1.5 ms: angle, cover or clear it",
};

function same(quantities: readonly string[], remedy: string): Record<string, string> {
  return Object.fromEntries(quantities.map((quantity) => [quantity, remedy]));
}

/** What would make more of it tellable. */
function forOpen({ placementM, compares }: Compared): string {
  return placementM > 0 && compares === "sessions"
    ? "leave the microphone standing from one measurement to the next, and say so with --placement 0; record two takes at each place"
    : "record two takes or more at each place, on both sides";
}

/** Says what to do: against each kind of thing that is worse, and for more to be told; each once. */
export function withRemedies(said: readonly Said[], compared: Compared): Said[] {
  const given = new Set<string>();
  return said.map((one) => {
    const remedy = remedyOf(one, compared);
    if (remedy === null || given.has(remedy)) return one;
    given.add(remedy);
    return { ...one, remedy };
  });
}

function remedyOf({ topic, quantity }: Said, compared: Compared): string | null {
  // A mode that is not found any more is no matter of exactness.
  if (topic === "unknown") return quantity === "modeT60S" ? null : forOpen(compared);
  // Of two monitors neither has become worse.
  return topic === "worse" && compared.compares === "sessions" ? (AGAINST[quantity] ?? null) : null;
}
