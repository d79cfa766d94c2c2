import type { Finding, Results } from "../../model.js";
import { PLACE_SPREAD, PLACE_SPREAD_RANGE_HZ } from "../limits.js";
import { levelAround, runsOf, worstOf } from "../places.js";
import { isMixedOn } from "../../schema/mixed-on.js";
import { reachOf } from "../reach.js";
import { stated } from "../stated.js";

/** Ranges whose level changes within a head's reach. */
export function placesAround(results: Results): Finding[] {
  return results.monitors.filter(isMixedOn).flatMap((monitor) => {
    const { id, channels } = monitor;
    const fromHz = Math.max(PLACE_SPREAD_RANGE_HZ[0], reachOf(monitor)?.minus6Hz ?? 0);
    const bands = (monitor.target?.bands ?? []).flatMap(({ nominalHz }) => {
      if (nominalHz < fromHz || nominalHz > PLACE_SPREAD_RANGE_HZ[1]) return [];
      const around = levelAround(results, id, nominalHz, channels);
      return around ? [{ nominalHz, ...around }] : [];
    });
    return runsOf(bands, ({ spreadDb }) => spreadDb > PLACE_SPREAD.value).map((run) => {
      const { nominalHz, spreadDb, places } = worstOf(run, (band) => band.spreadDb);
      const rangeHz: [number, number] = [run[0]!.nominalHz, run.at(-1)!.nominalHz];
      return stated(
        "moves-with-head",
        { monitor: id, rangeHz, bandHz: nominalHz, spreadDb, places },
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
