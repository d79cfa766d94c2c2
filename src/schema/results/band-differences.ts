import { z } from "../zod.js";
import { value } from "./figures.js";

/** Uncertainties are standard uncertainties at this position unless their key says otherwise. */
export const bandDifferences = z.array(
  z.strictObject({ nominalHz: z.number(), differenceDb: value, uncertaintyDb: value }),
);
