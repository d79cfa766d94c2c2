import { z } from "../zod.js";
import { bandDifferences } from "./band-differences.js";
import { value } from "./figures.js";

const decayDifference = z.strictObject({
  nominalHz: z.number(),
  aS: value,
  bS: value,
  differenceS: value,
  uncertaintyS: value,
});

/** One monitor against another. */
export const comparisonSchema = z.strictObject({
  a: z.string(),
  b: z.string(),
  levelOffsetDb: value,
  levelUncertaintyDb: value,
  includesGain: z.boolean(),
  /** At the mix position; the level offset is contained. */
  bands: bandDifferences,
  /** Between the means over the positions that both have, two at least, with their room uncertainties; offset contained. */
  roomBands: bandDifferences.nullable(),
  /** -6 dB ends, and how many octaves a reaches below b. */
  extension: z.strictObject({ aHz: value, bHz: value, gapOctaves: value }),
  /** Time of flight, a minus b, mean of the channels; needs a loopback or a known time zero. */
  arrivalS: value,
  arrivalReason: z.string().nullable(),
  /** By octave at the mix position, mean of the channels. */
  decay: z.array(decayDifference),
  /** Ranges of third octaves, edge to edge, in which, levels aligned, one shows what the other hides. */
  shows: z.array(
    z.strictObject({
      monitor: z.string(),
      other: z.string(),
      kind: z.enum(["reach", "level"]),
      fromHz: z.number(),
      toHz: z.number(),
      /** Of the energy means over the range, the one that shows minus the other. */
      differenceDb: z.number(),
      uncertaintyDb: z.number(),
    }),
  ),
});
