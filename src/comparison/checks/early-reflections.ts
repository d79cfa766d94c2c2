import type { Check, Measurement } from "../../model.js";
import { BOTH_ROOM_STANDARDS, EARLY_REFLECTIONS } from "../../standards/bs1116.js";
import { isAdvisory } from "../../standards/limit-origin.js";
import { origin } from "../target/origin-words.js";
import { unknown } from "./worst.js";

/**
 * The strongest reflection of one loudspeaker up to 15 ms.
 *
 * One within a millisecond may be the loudspeaker's own ringing: when nothing else breaks the limit but such a one, nobody can
 * tell. Without any reflection that stands out there is no value, and the limit is kept.
 */
export function earlyReflections({ reflections, energyTime, channel }: Measurement): Check {
  const { mostDb, untilS } = EARLY_REFLECTIONS;
  return {
    code: "early-reflections",
    source: `${BOTH_ROOM_STANDARDS}, ${origin(EARLY_REFLECTIONS)}`,
    limit: `at least ${-mostDb} dB under the direct sound up to ${1000 * untilS} ms, 1-8 kHz`,
    unit: "dB",
    ...judge(),
    advisory: isAdvisory(EARLY_REFLECTIONS),
    channel,
  };

  function judge(): Pick<Check, "value" | "pass" | "reason" | "bandHz"> {
    if (energyTime === null) return unknown("no-energy-time-curve");
    const early = reflections.filter(({ delayS }) => delayS <= untilS);
    if (early.length === 0) return { value: null, pass: true, reason: "none-stands-out", bandHz: null };
    const strongest = (which: typeof early): number => Math.max(...which.map(({ levelDb }) => levelDb));
    const far = strongest(early.filter(({ close }) => !close));
    const all = strongest(early);
    if (far > mostDb) return { value: far, pass: false, reason: null, bandHz: null };
    if (all > mostDb) return { value: all, pass: null, reason: "close-reflection-undecided", bandHz: null };
    return { value: all, pass: true, reason: null, bandHz: null };
  }
}
