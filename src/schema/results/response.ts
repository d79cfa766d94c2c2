import { z } from "../zod.js";
import { curve, frequencies, range } from "./figures.js";

export const responseSchema = z.strictObject({
  frequencyHz: frequencies,
  /** Steady state: everything from before the arrival to the end of the decay. */
  levelDb: curve,
  /** What is heard as tone: a window that shortens with frequency. */
  toneDb: curve,
  /** The direct sound alone, by a short gate; null below the frequency the gate can resolve. */
  directDb: curve,
  phaseDeg: curve,
  groupDelayS: curve,
  /** Standard uncertainty at this position, dB. */
  uncertaintyDb: curve,
  validHz: range.nullable(),
});

export const averageResponseSchema = z.strictObject({
  frequencyHz: frequencies,
  levelDb: curve,
  toneDb: curve,
  uncertaintyDb: curve,
});

export type Response = z.infer<typeof responseSchema>;
export type AverageResponse = z.infer<typeof averageResponseSchema>;
