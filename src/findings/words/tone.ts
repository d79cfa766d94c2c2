import { fixed } from "../../words/numbers.js";
import { type Decibels, decibels } from "../phrases/decibels.js";
import { type Range, range, worstAt } from "../phrases/ranges.js";
import type { Wordings } from "../wording.js";

/** A monitor against its target, band by band. */
export const toneWords = {
  "believable-range": (f: {
    monitor: string;
    rangeHz: Range;
    sizeDb: number;
    target: string;
    sidesAgree: boolean;
    reflects: boolean;
  }) => ({
    message:
      `Tone: believe ${f.monitor} ${range(f.rangeHz)}: no band there lies further than ${fixed(f.sizeDb, 1)} dB from the target curve "${f.target}"` +
      (f.sidesAgree ? ", and left agrees with right there" : "") +
      (f.reflects ? "; the reflection named below still colours detail." : "."),
    remedy: null,
  }),
  peak: (f: Decibels & { monitor: string; rangeHz: Range; bandHz: number; target: string }) => ({
    message: `Too loud on ${f.monitor} ${range(f.rangeHz)}: ${decibels(f)} above the target curve "${f.target}"${worstAt(f.rangeHz, f.bandHz)}.`,
    remedy: towards(f.bandHz, "you will set this range too low in a mix"),
  }),
  dip: (f: Decibels & { monitor: string; rangeHz: Range; bandHz: number; target: string }) => ({
    message: `Too soft on ${f.monitor} ${range(f.rangeHz)}: ${decibels(f)} under the target curve "${f.target}"${worstAt(f.rangeHz, f.bandHz)}.`,
    remedy: towards(f.bandHz, "you will set this range too high in a mix"),
  }),
  "moves-with-head": (f: { monitor: string; rangeHz: Range; bandHz: number; spreadDb: number; places: number }) => ({
    message: `The level of ${f.monitor} ${range(f.rangeHz)} changes within a head's reach: ${fixed(f.spreadDb, 1)} dB of spread over ${f.places} places${worstAt(f.rangeHz, f.bandHz)}.`,
    remedy: "keep your head still when you judge this range, or move the seat out of the null",
  }),
} satisfies Wordings;

function towards(bandHz: number, consequence: string): string {
  if (bandHz < 300)
    return `${consequence}; move the seat or the loudspeakers along the room by half a metre and measure again, then absorb`;
  return `${consequence}; look for a reflection that fits, then at the loudspeaker's own controls`;
}
