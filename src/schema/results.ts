import { findingSchema } from "./finding.js";
import { comparisonSchema } from "./results/comparison.js";
import { measurementSchema } from "./results/measurement.js";
import { monitorSchema } from "./results/monitor.js";
import { provenanceSchema } from "./results/provenance.js";
import { roomModesSchema } from "./room-modes.js";
import { doubleSlopesSchema, flutterSchema, surfacesSchema } from "./room-surfaces.js";
import { sessionSchema } from "./session.js";
import { translationSchema } from "./translation.js";
import { treatmentSchema } from "./treatment.js";
import { z } from "./zod.js";

/** `results.json`, version 1: the one truth that every report, table and page reads. */
export const resultsSchema = z.strictObject({
  schema: z.literal("carrywell/results/1"),
  session: sessionSchema,
  provenance: provenanceSchema,
  measurements: z.array(measurementSchema),
  monitors: z.array(monitorSchema),
  comparisons: z.array(comparisonSchema),
  /** Results of earlier versions have none. */
  roomModes: roomModesSchema.optional(),
  /** Results of earlier versions have none. */
  surfaces: surfacesSchema.optional(),
  /** Trains of echoes between walls that face each other, by measurement. */
  flutter: flutterSchema.optional(),
  /** Octaves whose decay has two slopes, over all measurements. */
  doubleSlopes: doubleSlopesSchema.optional(),
  translation: translationSchema.nullable(),
  findings: z.array(findingSchema),
  /** What would help against what the findings tell, by physics. Results of earlier versions have none. */
  treatment: treatmentSchema.optional(),
});

export type Results = z.infer<typeof resultsSchema>;
export type Translation = NonNullable<Results["translation"]>;
