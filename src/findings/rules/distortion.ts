import type { Finding, MonitorResult, Results } from "../../model.js";
import { DISTORTION, type Limit } from "../limits.js";
import { atMix, worstOf } from "../places.js";
import { isMixedOn } from "../../schema/mixed-on.js";
import { stated } from "../stated.js";

/** A single place on the axis may be noise; three over two semitones are not. */
const LEAST_PLACES = 3;
/** Where the loudspeaker's end is not known. */
const FROM_HZ = 40;

interface Excess {
  readonly channel: "L" | "R" | "both";
  readonly frequencyHz: number;
  readonly percent: number;
  readonly limit: Limit;
}

/** Loudspeakers driven so hard that their harmonics break the recommended limit. */
export function distortion(results: Results): Finding[] {
  return results.monitors.filter(isMixedOn).flatMap((monitor) => {
    const over = excesses(results, monitor);
    if (over.length === 0) return [];
    const { percent, frequencyHz, limit } = worstOf(over, (one) => one.percent / one.limit.value);
    const channels = [...new Set(over.map(({ channel }) => channel))];
    return [
      stated(
        "distortion",
        { monitor: monitor.id, channels, percent, frequencyHz, limitPercent: limit.value },
        {
          severity: "warning",
          topic: "mend",
          value: percent,
          unit: "%",
          limit: limit.value,
          source: limit.source,
          audibility: percent / limit.value,
          bandHz: frequencyHz,
          monitors: [monitor.id],
          channels,
        },
      ),
    ];
  });
}

function excesses(results: Results, { id, extension }: MonitorResult): Excess[] {
  // Below its end a loudspeaker has little but harmonics to give.
  const fromHz = extension?.minus3Hz ?? FROM_HZ;
  return atMix(results, id).flatMap(({ distortion: found, channel }) => {
    const over = (found?.frequencyHz ?? []).flatMap((frequencyHz, k) => {
      const percent = found?.thdPercent[k] ?? null;
      const limit = frequencyHz < DISTORTION.low.belowHz ? DISTORTION.low : DISTORTION.high;
      const counts = frequencyHz >= fromHz && frequencyHz <= DISTORTION.high.belowHz;
      return percent !== null && counts && percent > limit.value ? [{ channel, frequencyHz, percent, limit }] : [];
    });
    return over.length < LEAST_PLACES ? [] : over;
  });
}
