import type { Check, Measurement } from "../../model.js";
import { roomDecay } from "../../schema/room-decay.js";
import {
  BOTH_ROOM_STANDARDS,
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
  { code: "reverberation", advisory: false, words: "from 200 Hz to 4 kHz within ±0.05 s of Tm" },
  {
    code: "reverberation-edges",
    advisory: true,
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
  return stretches.map(({ code, advisory, words }) => {
    const bands = mask?.bands.filter((band) => band.advisory === advisory) ?? [];
    const judged = bands.map((band): Judged => ({ bandHz: band.nominalHz, value: excessS(sides, band) }));
    const parts = REVERBERATION.filter((segment) => isAdvisory(segment) === advisory);
    return {
      code,
      source: `${BOTH_ROOM_STANDARDS}: ${originWords(parts)}`,
      limit: `${words}, Tm = 0.25 (V / 100 m³)^(1/3) s${mask ? ` = ${fixed(mask.tmS, 2)} s` : ""}; value: excess`,
      unit: "s",
      ...(mask ? worst(judged, 0) : unknown("no-volume")),
      advisory,
      channel: null,
    };
  });
}

/** How far a band's time lies beyond the nearer limit; null where a loudspeaker gives no time that is the room's. */
function excessS(sides: readonly Measurement[], { nominalHz, lowerS, upperS }: MaskBand): number | null {
  const times = sides.map(({ bands }) => {
    const band = bands.find((one) => one.fraction === 3 && one.nominalHz === nominalHz);
    if (!band || band.flags.includes("filter-limited")) return null;
    return roomDecay(band)?.timeS ?? null;
  });
  if (times.length === 0 || times.includes(null)) return null;
  const timeS = times.reduce<number>((sum, time) => sum + time!, 0) / times.length;
  return Math.max(lowerS - timeS, timeS - upperS);
}
