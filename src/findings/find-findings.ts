import type { Finding, Results } from "../model.js";
import { decay } from "./rules/decay.js";
import { distortion } from "./rules/distortion.js";
import { leftRight } from "./rules/left-right.js";
import { lowEnd } from "./rules/low-end.js";
import { noise } from "./rules/noise.js";
import { phantomCentre } from "./rules/phantom-centre.js";
import { placesAround } from "./rules/places-around.js";
import { reflections } from "./rules/reflections.js";
import { surfaces } from "./rules/surfaces.js";
import { believable, tone } from "./rules/tone.js";
import { unknown } from "./rules/unknown.js";

/** One rule: reads results, says what follows. */
type Rule = (results: Results) => Finding[];

/** What may have to be mended, one rule each. */
const rules: readonly Rule[] = [
  leftRight,
  reflections,
  surfaces,
  tone,
  decay,
  placesAround,
  phantomCentre,
  distortion,
  noise,
];

/**
 * Reads off the results what to trust, what to mend, and what was not measured well enough to say.
 *
 * @param results - complete but for their findings, of which it holds what the recordings told
 * @returns findings in no order
 */
export function findFindings(results: Results): Finding[] {
  const told = rules.flatMap((rule) => rule(results));
  const mended = [...results.findings, ...told].filter(({ topic }) => topic === "mend");
  return [...told, ...lowEnd(results, mended), ...believable(results, mended), ...unknown(results)];
}
