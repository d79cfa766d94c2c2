import { nominalMeanTime } from "../../src/standards/bs1116.js";
import { speedOfSound } from "../../src/standards/speed-of-sound.js";
import { type Check, equal, equalTable } from "./check.js";

/** Volume m3, Tm s. */
const meanTimes: readonly [number, number][] = [
  [30, 0.167],
  [50, 0.198],
  [80, 0.232],
  [100, 0.25],
  [150, 0.286],
  [200, 0.315],
];

export const roomChecks: readonly Check[] = [
  equal("speed of sound at 20 °C", "ISO 9613-1:1993, Annex A", 343.2, 1, speedOfSound(20), "m/s"),
  equal("speed of sound at 23 °C", "ISO 9613-1:1993, Annex A (computed)", 344.95, 2, speedOfSound(23), "m/s"),
  equalTable(
    "nominal mean reverberation time",
    "ITU-R BS.1116-3, 8.2.3 (restatement)",
    meanTimes.map(([volumeM3, timeS]) => [`${volumeM3} m³`, timeS, nominalMeanTime(volumeM3)]),
    3,
    "s",
  ),
];
