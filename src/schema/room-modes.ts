import { z } from "./zod.js";

/** The part of `results.json` on the room's modes, agreed over places and monitors. */

const value = z.number().nullable();
const range = z.tuple([z.number(), z.number()]);

/** One mode, at one place or over all. */
export const modeSchema = z.strictObject({
  frequencyHz: z.number(),
  t60S: z.number(),
  /** Amplitude at the arrival, re the strongest single mode listed. */
  levelDb: z.number(),
  /** Standard uncertainties. */
  frequencyUncertaintyHz: z.number().optional(),
  t60UncertaintyS: z.number().optional(),
});

/** How far a mode raises the response at the mix position, and from where on that is heard. */
const bumpSchema = z.strictObject({ monitor: z.string(), raisedDb: z.number(), heardFromDb: z.number() });

const measuredSchema = z.strictObject({
  /** One mode; or several that overlap, of which no single figure is exact. */
  kind: z.enum(["mode", "group"]),
  frequencyHz: z.number(),
  /** From half a bandwidth below the lowest to half of one above the highest. */
  rangeHz: range,
  frequencyUncertaintyHz: value,
  /** Of a group: of all its energy together; null where it is wider than a third octave. */
  t60S: value,
  t60UncertaintyS: value,
  /** Amplitude at the arrival, re the strongest single mode; null of a group wider than a third octave. */
  levelDb: value,
  /** Measurements in which it rings clearly. */
  places: z.array(z.string()),
  /** What of a group could be told apart, by rising frequency. */
  members: z.array(modeSchema),
  /** Longest decay that stays unheard; null outside what was tested. */
  unheardS: value,
  /** By monitor that reaches so low: the side that shows it most. */
  bumps: z.array(bumpSchema),
  /** Whether it rings longer than stays unheard and its bump is heard too; null where that cannot be told. */
  audible: z.boolean().nullable(),
  /** Indices of the predicted modes it may be. */
  predicted: z.array(z.int()),
});

const predictedSchema = z.strictObject({
  /** Half waves along length, width and height. */
  order: z.tuple([z.int(), z.int(), z.int()]),
  kind: z.enum(["axial", "tangential", "oblique"]),
  frequencyHz: z.number(),
  /** To the next higher mode; null for the last. */
  spacingHz: value,
});

export const roomModesSchema = z.strictObject({
  /** Measurements in which modes were looked for. */
  measurements: z.array(z.string()),
  /** Where they were looked for; above it they overlap. */
  rangeHz: range.nullable(),
  /** Why nothing was looked for. */
  reason: z.string().nullable(),
  measured: z.array(measuredSchema),
  predicted: z.array(predictedSchema).nullable(),
  predictedReason: z.string().nullable(),
  /** Measured and predicted are taken for one mode up to this share of the frequency. */
  tolerance: z.number(),
  /** From here up modes overlap so densely that single ones are not heard; needs the volume and a decay time. */
  schroederHz: value,
  /** Standard: by how far decay times differ over places and octaves, and by what is not known of the volume. */
  schroederUncertaintyHz: value.optional(),
  /** By monitor at the mix position: how long the sound of each frequency takes to fall. */
  ringMaps: z.array(
    z.strictObject({
      monitor: z.string(),
      frequencyHz: z.array(z.number()),
      falls: z.array(z.strictObject({ byDb: z.number(), timeS: z.array(value) })),
    }),
  ),
});

export type Mode = z.infer<typeof modeSchema>;
export type RoomModes = z.infer<typeof roomModesSchema>;
export type MeasuredMode = z.infer<typeof measuredSchema>;
export type PredictedMode = z.infer<typeof predictedSchema>;
export type RingMap = RoomModes["ringMaps"][number];
