import type { Check, Measurement, MonitorResult } from "../../model.js";
import { backgroundNoise } from "./background-noise.js";
import { earlyReflections } from "./early-reflections.js";
import { leftRightChecks } from "./left-right.js";
import { responseMasks } from "./response-mask.js";
import { reverberationMasks } from "./reverberation-mask.js";

/**
 * Holds a monitor at the mix position against the limits of ITU-R BS.1116 and EBU Tech 3276.
 *
 * A limit that both have in common is one check with both in its source. The list is the same for every monitor; what could
 * not be judged says why.
 *
 * @param sides - measurements at the mix position, one a loudspeaker
 * @param volumeM3 - of the room; null when it was not stated
 */
export function checkMonitor(
  sides: readonly Measurement[],
  monitor: Pick<MonitorResult, "leftRight" | "leftRightReason">,
  volumeM3: number | null,
): Check[] {
  if (sides.length === 0) return [];
  return [
    ...sides.flatMap(responseMasks),
    ...reverberationMasks(sides, volumeM3),
    ...sides.map(earlyReflections),
    ...leftRightChecks(monitor),
    ...backgroundNoise(sides),
  ];
}
