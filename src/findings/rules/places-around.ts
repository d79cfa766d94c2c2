import type { Finding, Results } from "../../model.js";
import { ENOUGH_PLACES, PLACE_SPREAD, PLACE_SPREAD_RANGE_HZ } from "../limits.js";
import { runsOf, worstOf } from "../places.js";
import { stated } from "../stated.js";

/** Ranges whose level changes within a head's reach. */
export function placesAround(results: Results): Finding[] {
  const isRoom = new Set(results.session.positions.flatMap(({ id, kind }) => (kind === "room" ? [id] : [])));
  return results.monitors.flatMap(({ id, positions, extension }) => {
    // Places across the room differ as they like.
    if (!positions || positions.ids.length < ENOUGH_PLACES || positions.ids.some((place) => isRoom.has(place)))
      return [];
    const fromHz = Math.max(PLACE_SPREAD_RANGE_HZ[0], extension?.minus6Hz ?? 0);
    const bands = positions.bands.flatMap(({ nominalHz, spreadDb }) =>
      spreadDb !== null && nominalHz >= fromHz && nominalHz <= PLACE_SPREAD_RANGE_HZ[1]
        ? [{ nominalHz, spreadDb }]
        : [],
    );
    return runsOf(bands, ({ spreadDb }) => spreadDb > PLACE_SPREAD.value).map((run) => {
      const { nominalHz, spreadDb } = worstOf(run, (band) => band.spreadDb);
      const rangeHz: [number, number] = [run[0]!.nominalHz, run.at(-1)!.nominalHz];
      return stated(
        "moves-with-head",
        { monitor: id, rangeHz, bandHz: nominalHz, spreadDb, places: positions.ids.length },
        {
          severity: "warning",
          topic: "mend",
          value: spreadDb,
          unit: "dB",
          limit: PLACE_SPREAD.value,
          source: PLACE_SPREAD.source,
          audibility: spreadDb / PLACE_SPREAD.value,
          bandHz: nominalHz,
          rangeHz,
          monitors: [id],
        },
      );
    });
  });
}
