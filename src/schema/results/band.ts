import { z } from "../zod.js";
import { value } from "./figures.js";

/** What one octave or third octave of a measurement says. */
export const bandSchema = z.strictObject({
  fraction: z.union([z.literal(1), z.literal(3)]),
  nominalHz: z.number(),
  exactHz: z.number(),
  levelDb: value,
  /** Standard uncertainty of levelDb at this position. */
  levelUncertaintyDb: value,
  /** What the noise of the silent lead adds to the band, on the scale of levelDb. */
  noiseDb: value,
  edtS: value,
  t20S: value,
  t30S: value,
  lateS: value,
  c50Db: value,
  c80Db: value,
  d50: value,
  tsS: value,
  /** Standard uncertainties; results of earlier versions have none. */
  c50UncertaintyDb: value.optional(),
  c80UncertaintyDb: value.optional(),
  decayRangeDb: value,
  nonLinearityPerMille: value,
  curvaturePercent: value,
  /** Standard uncertainty of t30S, or of t20S where t30S is null, in seconds. */
  decayUncertaintyS: value,
  /** Of edtS; results of earlier versions have none. */
  edtUncertaintyS: value.optional(),
  /** Standard uncertainty of lateS. */
  lateUncertaintyS: value,
  flags: z.array(z.string()),
});

export type BandMetrics = z.infer<typeof bandSchema>;
