import type { AverageResponse, Response } from "../model.js";
import { energyMeanUncertaintyDb } from "../dsp/energy-mean-uncertainty.js";
import { energyMeanDb } from "../dsp/energy-mean.js";

/**
 * Energy mean of responses on the common grid, with the uncertainty of that mean.
 *
 * @param responses - at least one
 */
export function averageResponse(responses: readonly Response[]): AverageResponse {
  const frequencyHz = [...(responses[0]?.frequencyHz ?? [])];
  const at = (key: "levelDb" | "toneDb", k: number): (number | null)[] =>
    responses.map((response) => response[key][k] ?? null);
  return {
    frequencyHz,
    levelDb: frequencyHz.map((_, k) => energyMeanDb(at("levelDb", k))),
    toneDb: frequencyHz.map((_, k) => energyMeanDb(at("toneDb", k))),
    uncertaintyDb: frequencyHz.map((_, k) =>
      energyMeanUncertaintyDb(
        at("levelDb", k),
        responses.map((response) => response.uncertaintyDb[k] ?? null),
        "independent",
      ),
    ),
  };
}

/** Standard deviation of levels across positions, dB, on the common grid; null where a level is not known. */
export function spreadDb(responses: readonly Response[]): (number | null)[] {
  const count = responses.length;
  return (responses[0]?.frequencyHz ?? []).map((_, k) => {
    const levels = responses.flatMap((response) => response.levelDb[k] ?? []);
    if (levels.length < count || count < 2) return null;
    const mean = levels.reduce((sum, level) => sum + level, 0) / count;
    return Math.sqrt(levels.reduce((sum, level) => sum + (level - mean) ** 2, 0) / (count - 1));
  });
}
