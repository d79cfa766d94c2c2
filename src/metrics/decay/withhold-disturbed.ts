import { bandEdges } from "../../standards/iec61260.js";
import { type DecayMetrics, unknownDecay } from "./band-metrics.js";

/**
 * Takes back the decays of bands in which something else sounded while the response did: a knock lengthens them at will.
 *
 * @param rangesHz - what was disturbed
 * @returns the same bands, in order; those that reach into a range have no decay figures and say `disturbed`
 */
export function withholdDisturbed(
  bands: readonly DecayMetrics[],
  rangesHz: readonly (readonly [number, number])[],
): DecayMetrics[] {
  return bands.map((band) =>
    isDisturbed(band, rangesHz) ? { ...unknownDecay(band), flags: [...band.flags, "disturbed"] } : band,
  );
}

/** Takes back all decays of a response whose harmonics are so many or so strong that they go on like a decay. */
export function withholdHidden(bands: readonly DecayMetrics[]): DecayMetrics[] {
  return bands.map((band) => ({ ...unknownDecay(band), flags: [...band.flags, "hidden-by-harmonics"] }));
}

export function isDisturbed(
  band: Parameters<typeof bandEdges>[0],
  rangesHz: readonly (readonly [number, number])[],
): boolean {
  const [fromHz, toHz] = bandEdges(band);
  return rangesHz.some(([from, to]) => toHz > from && fromHz < to);
}
