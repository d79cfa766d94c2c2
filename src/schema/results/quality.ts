import { findingSchema } from "../finding.js";
import { z } from "../zod.js";
import { value } from "./figures.js";

/** How well a measurement was recorded. */
export const qualitySchema = z.strictObject({
  usable: z.boolean(),
  peakDbfs: value,
  clippedSamples: z.int(),
  clockDriftPpm: value,
  clockDriftUncertaintyPpm: value,
  clockDriftCorrected: z.boolean(),
  signalToNoiseDb: value,
  repeatabilityDb: value,
  /** What the impulse response does not explain, against the noise of the silent lead. */
  residual: z
    .strictObject({
      blockS: z.number(),
      medianExcessDb: value,
      worstExcessDb: value,
      worstAtS: value,
      worstBandHz: value,
    })
    .nullable(),
  findings: z.array(findingSchema),
});
