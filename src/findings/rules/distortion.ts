import type { Finding, Results } from "../../model.js";
import { DISTORTION } from "../limits.js";
import { atMix, worstOf } from "../places.js";
import { stated } from "../stated.js";

/** Loudspeakers driven so hard that their harmonics break the recommended limit. */
export function distortion(results: Results): Finding[] {
  return results.monitors.flatMap(({ id, extension }) =>
    atMix(results, id).flatMap((measurement) => {
      const { distortion: found, channel } = measurement;
      const over = (found?.frequencyHz ?? []).flatMap((frequencyHz, k) => {
        const percent = found?.thdPercent[k] ?? null;
        const limit = frequencyHz < DISTORTION.low.belowHz ? DISTORTION.low : DISTORTION.high;
        // Below its end a loudspeaker has little but harmonics to give.
        const counts = frequencyHz >= (extension?.minus3Hz ?? 40) && frequencyHz <= DISTORTION.high.belowHz;
        return percent !== null && counts && percent > limit.value ? [{ frequencyHz, percent, limit }] : [];
      });
      // A single place on the grid may be noise; three in a row over two semitones are not.
      if (over.length < LEAST_PLACES) return [];
      const { frequencyHz, percent, limit } = worstOf(over, (one) => one.percent / one.limit.value);
      return [
        stated(
          "distortion",
          { monitor: id, channel, percent, frequencyHz, limitPercent: limit.value },
          {
            severity: "warning",
            topic: "mend",
            value: percent,
            unit: "%",
            limit: limit.value,
            source: limit.source,
            audibility: percent / limit.value,
            bandHz: frequencyHz,
            monitors: [id],
            channels: [channel],
          },
        ),
      ];
    }),
  );
}

const LEAST_PLACES = 3;
