import type { FactsOf } from "../../findings/catalogue.js";
import { stated } from "../../findings/stated.js";
import { spoiltHz } from "../../findings/words/recordings/calibration.js";
import type { Finding } from "../../model.js";
import type { ReadCalibration } from "../../recording/microphone-calibration.js";
import { type Suspicion, suspectCalibration } from "../../recording/suspect-calibration.js";

/** Angles that differ by more are not the same use of a microphone. A choice of ours. */
const SAME_ANGLE_DEG = 5;

/** What about the microphone's table cannot be right, one finding for each. */
export function calibrationSuspect(
  file: string,
  table: ReadCalibration,
  orientationDeg: number | null,
  sweptHz: readonly [number, number],
): Finding[] {
  const { angleDeg } = table;
  const found = suspectCalibration(table, sweptHz).map((what) => suspect({ file, ...what }, partsOf(what)));
  if (angleDeg === null || orientationDeg === null || Math.abs(angleDeg - orientationDeg) <= SAME_ANGLE_DEG)
    return found;
  const parts = { value: angleDeg, unit: "°", limit: orientationDeg };
  return [suspect({ file, kind: "angle", angleDeg, orientationDeg }, parts), ...found];
}

function suspect(facts: FactsOf<"calibration-suspect">, parts: Partial<Finding>): Finding {
  return stated("calibration-suspect", facts, { severity: "warning", topic: "recording", ...parts });
}

function partsOf(what: Suspicion): Partial<Finding> {
  if (what.kind === "jump") {
    return { value: what.stepDb, unit: "dB", limit: what.limitDb, rangeHz: [...spoiltHz(what)] };
  }
  if (what.kind === "gap") return { rangeHz: [what.fromHz, what.toHz] };
  return { value: what.kind === "range" ? what.rangeDb : what.meanDb, unit: "dB", limit: what.limitDb };
}
