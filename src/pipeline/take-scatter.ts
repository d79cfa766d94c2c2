import { onsetSample } from "../impulse/onset.js";
import { bandMetrics, type DecayMetrics } from "../metrics/decay/band-metrics.js";
import type { BandMetrics, ImpulseResponse } from "../model.js";

const FIGURES = ["edtS", "t20S", "t30S", "lateS", "c50Db", "c80Db"] as const;
type Figures = Pick<DecayMetrics, (typeof FIGURES)[number]>;

/**
 * Widens the uncertainties of decays and clarity by how far takes are from what is stated of their mean.
 *
 * Takes are averaged as impulse responses. Where the microphone has moved by millimetres their late sound agrees the less the
 * higher it is, and the mean has too little of it, while the direct sound, by which takes are aligned, loses nothing.
 *
 * @param bands - of the mean of the takes
 * @param takes - aligned; each is measured by itself
 * @returns the same bands with standard uncertainties that hold the root mean square of the distances; those of a single take
 *   as they were
 */
export function withTakeScatter(bands: readonly BandMetrics[], takes: readonly ImpulseResponse[]): BandMetrics[] {
  if (takes.length < 2) return [...bands];
  // Where nothing is stated nothing is uncertain.
  const stated = bands.filter((band) => FIGURES.some((figure) => band[figure] !== null));
  const each = takes.map((take) => bandMetrics({ ...take, arrivalSample: onsetSample(take) }, stated));
  return bands.map((band) => {
    const n = stated.indexOf(band);
    if (n < 0) return band;
    const distance = distancesOf(
      band,
      each.map((own) => own[n]!),
    );
    const widened = (uncertainty: number | null | undefined, by: number): number | null =>
      uncertainty == null ? null : Math.hypot(uncertainty, by);
    return {
      ...band,
      edtUncertaintyS: widened(band.edtUncertaintyS, distance("edtS")),
      decayUncertaintyS: widened(band.decayUncertaintyS, Math.max(distance("t20S"), distance("t30S"))),
      lateUncertaintyS: widened(band.lateUncertaintyS, distance("lateS")),
      c50UncertaintyDb: widened(band.c50UncertaintyDb, distance("c50Db")),
      c80UncertaintyDb: widened(band.c80UncertaintyDb, distance("c80Db")),
    };
  });
}

/** Root mean square of the distances from takes to the figure stated; 0 where no two are known. */
function distancesOf(stated: Figures, takes: readonly Figures[]): (key: (typeof FIGURES)[number]) => number {
  return (key) => {
    const off = takes.flatMap((take) => (take[key] === null || stated[key] === null ? [] : [take[key] - stated[key]]));
    return Math.sqrt(off.reduce((sum, one) => sum + one * one, 0) / Math.max(1, off.length));
  };
}
