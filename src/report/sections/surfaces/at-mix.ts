import type { MeasurementSurfaces, Results } from "../../../model.js";

/** Measurements at the mix position; without one, all. */
export function atMix(
  results: Results,
): readonly { surfaces: MeasurementSurfaces; measurement: Results["measurements"][number] }[] {
  const mix = results.session.positions.find(({ kind }) => kind === "mix")?.id;
  return (results.surfaces?.measurements ?? []).flatMap((surfaces) => {
    const measurement = results.measurements.find(({ id }) => id === surfaces.id);
    const isWanted = measurement && !measurement.derived && (mix === undefined || measurement.position === mix);
    return isWanted ? [{ surfaces, measurement }] : [];
  });
}
