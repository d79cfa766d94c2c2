import { z } from "../zod.js";
import { range, value } from "./figures.js";

/** A monitor against the curve it should follow. */
export const targetSchema = z.strictObject({
  id: z.string(),
  /** Where curve and limits come from. */
  source: z.string(),
  /** True where the limits are remembered, disputed or chosen by us: no pass or fail hangs on them. */
  advisory: z.boolean(),
  /** What was added to the target so that it lies on the measured curve over the range of the fit. */
  offsetDb: value,
  fitHz: range,
  /** Share of the bands with limits that keep to them. */
  withinPercent: value,
  rmsDb: value,
  bands: z.array(
    z.strictObject({
      nominalHz: z.number(),
      /** The target's own curve, without the offset. */
      targetDb: value,
      /** Measured minus target, offset included. */
      deviationDb: value,
      uncertaintyDb: value,
      /** Limits of the deviation; null where there is none. */
      lowerDb: value,
      upperDb: value,
    }),
  ),
});

export type TargetResult = z.infer<typeof targetSchema>;
