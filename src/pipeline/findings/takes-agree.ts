import { type AveragedTakes, COHERENCE_HZ, LEAST_COHERENCE } from "../../impulse/average-takes.js";
import { distancesOfCoherence } from "../../impulse/reflected-coherence.js";
import type { Finding } from "../../model.js";
import * as findings from "../findings.js";

/** Takes whose third octaves all differ alike by more than they should were recorded with another gain. */
const ALIKE_DB = 0.3;
/**
 * Says what differs between the takes of one place: gain, the microphone's place, or something else.
 *
 * @param id - of the measurement
 * @returns null when they agree
 */
export function takesAgree(
  id: string,
  takes: Pick<AveragedTakes, "agree" | "coherence" | "largestDifferenceDb" | "shapeDifferenceDb" | "spread">,
  speedOfSound: number,
  files: string[],
): Finding | null {
  const { agree, coherence, largestDifferenceDb, shapeDifferenceDb, spread } = takes;
  if (coherence !== null && coherence < LEAST_COHERENCE) {
    const moved = distancesOfCoherence(coherence, COHERENCE_HZ, speedOfSound);
    const [limitM] = distancesOfCoherence(LEAST_COHERENCE, COHERENCE_HZ, speedOfSound);
    return findings.positionMoved(id, moved, limitM, files);
  }
  if (!agree && shapeDifferenceDb < ALIKE_DB) return findings.gainChanged(id, largestDifferenceDb, files);
  const differences = spread.map(({ differenceDb }) => differenceDb);
  const widest = spread[differences.indexOf(Math.max(...differences))];
  if (!widest || (agree && widest.differenceDb <= findings.TAKES_DIFFER_DB)) return null;
  return findings.takesDiffer(id, widest.differenceDb, widest.nominalHz, agree, files);
}
