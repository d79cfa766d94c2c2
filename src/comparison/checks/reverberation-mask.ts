import type { Check, Measurement } from "../../model.js";
import { roomDecay } from "../../schema/room-decay.js";
import {
  BOTH_ROOM_STANDARDS,
  MEAN_TIME_RANGE_HZ,
  REVERBERATION,
  type ReverberationMask,
  reverberationMask,
} from "../../standards/bs1116.js";
import { fixed } from "../../words/numbers.js";
import { originWords } from "../target/origin-words.js";
import { isAdvisory } from "../../standards/limit-origin.js";
import { type Judged, unknown, worst } from "./worst.js";

type MaskBand = ReverberationMask["bands"][number];

const stretches = [
  { code: "reverberation", isMiddle: true, words: "from 200 Hz to 4 kHz within ±0.05 s of Tm" },
  {
    code: "reverberation-edges",
    isMiddle: false,
    words:
      "from +0.3 s over Tm at 63 Hz down to +0.05 s at 200 Hz and not 0.05 s under it; from 5 to 8 kHz within ±0.1 s",
  },
] as const;

/**
 * Reverberation time at the mix position against the mask of the room's volume, by third octave; mean over the loudspeakers.
 *
 * Two checks: the middle was read in a restatement, the edges are from memory. A band whose time is limited by the filter is
 * passed over: the room itself may be quicker.
 *
 * @param sides - one measurement a loudspeaker
 * @param volumeM3 - null when it was not stated
 */
export function reverberationMasks(sides: readonly Measurement[], volumeM3: number | null): Check[] {
  const mask = volumeM3 === null ? null : reverberationMask(volumeM3);
  const inMiddle = (hz: number): boolean => hz >= MEAN_TIME_RANGE_HZ[0] && hz <= MEAN_TIME_RANGE_HZ[1];
  return stretches.map(({ code, isMiddle, words }) => {
    const bands = mask?.bands.filter(({ nominalHz }) => inMiddle(nominalHz) === isMiddle) ?? [];
    const judged = bands.map((band): Judged => ({ bandHz: band.nominalHz, ...excessS(sides, band) }));
    const parts = REVERBERATION.filter(({ fromHz, toHz }) => (inMiddle(fromHz) && inMiddle(toHz)) === isMiddle);
    return {
      code,
      source: `${BOTH_ROOM_STANDARDS}: ${originWords(parts)}`,
      limit: `${words}, Tm = 0.25 (V / 100 m³)^(1/3) s${mask ? ` = ${fixed(mask.tmS, 2)} s` : ""}; value: excess`,
      unit: "s",
      ...(mask ? worst(judged, 0) : unknown("no-volume")),
      advisory: parts.some(isAdvisory),
      channel: null,
    };
  });
}

/** How far a band's time lies beyond the nearer limit; null where a loudspeaker gives no time that is the room's. */
function excessS(
  sides: readonly Measurement[],
  { nominalHz, lowerS, upperS }: MaskBand,
): Pick<Judged, "value" | "uncertainty"> {
  const times = sides.flatMap(({ bands }) => {
    const band = bands.find((one) => one.fraction === 3 && one.nominalHz === nominalHz);
    return !band || band.flags.includes("filter-limited") ? [] : (roomDecay(band) ?? []);
  });
  if (times.length === 0 || times.length < sides.length) return { value: null, uncertainty: null };
  const timeS = times.reduce((sum, time) => sum + time.timeS, 0) / times.length;
  // Both sides are heard by one room: what is wrong with one is taken to be wrong with the other.
  const uncertainties = times.flatMap((time) => time.uncertaintyS ?? []);
  const uncertainty = uncertainties.length < times.length ? null : Math.max(...uncertainties);
  return { value: Math.max(lowerS - timeS, timeS - upperS), uncertainty };
}
