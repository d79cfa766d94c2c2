import { bandCurve, curveDifference } from "../comparison/band-curve.js";
import { extension } from "../comparison/extension.js";
import { compareArrival } from "../comparison/monitors/compare-arrival.js";
import { compareDecay } from "../comparison/monitors/compare-decay.js";
import { compareExtension } from "../comparison/monitors/compare-extension.js";
import { roomBands } from "../comparison/monitors/room-bands.js";
import { shows } from "../comparison/monitors/shows.js";
import { placesOf, sidesOf } from "../comparison/positions/places.js";
import type { Measurement, Results, Session } from "../model.js";

/** Compares every pair of monitors that were measured at the mix position. */
export function compareMonitors(session: Session, measurements: readonly Measurement[]): Results["comparisons"] {
  const mixId = session.positions.find((position) => position.kind === "mix")?.id;
  const monitors = session.monitors.flatMap(({ id }) => {
    const own = measurements.filter((one) => one.monitor === id && !one.derived);
    const channels = sidesOf(own.filter((one) => one.position === mixId));
    if (channels.length === 0) return [];
    const curve = bandCurve(channels);
    return [{ id, channels, curve, extension: extension(curve), places: placesOf(own, session.positions) }];
  });
  return monitors.flatMap((a, index) =>
    monitors.slice(index + 1).map((b) => {
      const difference = curveDifference(a.curve, b.curve);
      return {
        a: a.id,
        b: b.id,
        levelOffsetDb: difference.levelDb,
        levelUncertaintyDb: difference.uncertaintyDb,
        includesGain: session.microphone?.gainFixed !== true,
        bands: difference.bands,
        roomBands: roomBands(a.places, b.places),
        extension: compareExtension(a.extension, b.extension),
        ...compareArrival(a.channels, b.channels),
        decay: compareDecay(a.channels, b.channels),
        shows: shows(a, b),
      };
    }),
  );
}
