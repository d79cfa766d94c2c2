import type { Compared, Said } from "../../schema/changes.js";

const OPENING = "close what opens to another room, such as a door, and measure again";

/** What to do about what has become worse, by what it is read off. Common practice, no source. */
const AGAINST: Readonly<Record<string, string>> = {
  ...same(
    ["targetDb", "roomLevelDb"],
    "see first whether the change has done it: take it back and measure again; if it has, and is to stay, set the monitor's own tone controls anew, or move it by a hand's breadth, and measure again; what held the tone up or down before may have been a resonance or a surface that is gone",
  ),
  minus6Hz:
    "see first whether the change has done it: take it back and measure again; if it has, and is to stay, set the monitor's own low control anew, or move it nearer to the wall behind it, and measure again; a resonance or a surface may have carried it further down before",
  secondSlopeS: OPENING,
  lateSlopeS: OPENING,
  flutterDb: "cover or tilt one of the two walls that the change has laid bare to each other, and measure again",
  leftRightDb:
    "look for what the change has made unlike on the two sides: panels, distances, the settings of the boxes",
  leftRightArrivalS: "measure the way from each box to the microphone with a tape, and even them out",
  reflectionDb: "find the surface by the detour, half a metre for every 1.5 ms: angle, cover or clear it",
};

/** Of a decay that is worse because it is longer, and because it is shorter. */
const DECAYS: readonly string[] = ["t20S", "t30S", "lateS", "modeT60S", "roomDecayS"];
const TOO_LONG =
  "take the change back and measure again, to be sure that it is the cause; then damp what it has laid bare there";
const TOO_SHORT =
  "take part of what absorbs there out again, or cover it with something that scatters, and measure again";

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
  const opened = said.some(({ topic, quantity }) => topic === "worse" && AGAINST[quantity] === OPENING);
  return said.map((one) => {
    const remedy = remedyOf(one, compared, opened);
    if (remedy === null || given.has(remedy)) return one;
    given.add(remedy);
    return { ...one, remedy };
  });
}

/** @param opened - whether another room answers that did not: then it makes decays longer, and no panel helps */
function remedyOf(said: Said, compared: Compared, opened: boolean): string | null {
  const { topic, quantity } = said;
  // A mode that is not found any more is no matter of exactness.
  if (topic === "unknown") return quantity === "modeT60S" ? null : forOpen(compared);
  // Of two monitors neither has become worse.
  if (topic !== "worse" || compared.compares !== "sessions") return null;
  if (DECAYS.includes(quantity)) return said.rises === false ? TOO_SHORT : opened && said.rises ? OPENING : TOO_LONG;
  return AGAINST[quantity] ?? null;
}
