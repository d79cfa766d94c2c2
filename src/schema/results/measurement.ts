import { modeSchema } from "../room-modes.js";
import { channelSchema, roleSchema } from "../session.js";
import { z } from "../zod.js";
import { bandSchema } from "./band.js";
import { curve, frequencies, value } from "./figures.js";
import { qualitySchema } from "./quality.js";
import { responseSchema } from "./response.js";

const reflectionSchema = z.strictObject({
  delayS: z.number(),
  pathDifferenceM: z.number(),
  levelDb: z.number(),
  levelUncertaintyDb: z.number(),
  polarity: z.union([z.literal(1), z.literal(-1)]),
  firstNotchHz: z.number(),
  close: z.boolean(),
});

const distortionSchema = z.strictObject({
  frequencyHz: frequencies,
  harmonicsDb: z.record(z.string(), curve),
  thdPercent: curve,
});

const backgroundSchema = z.strictObject({
  /** dbfs: re a full-scale sine; spl: re 20 uPa. */
  levelReference: z.enum(["dbfs", "spl"]),
  bands: z.array(
    z.strictObject({
      nominalHz: z.number(),
      levelDb: value,
      /** Standard uncertainty, from how little was heard of it; results of earlier versions have none. */
      uncertaintyDb: value.optional(),
    }),
  ),
  aWeightedDb: value,
});

/** One channel of one monitor at one place. */
export const measurementSchema = z.strictObject({
  id: z.string(),
  monitor: z.string(),
  role: roleSchema,
  channel: channelSchema,
  position: z.string(),
  takes: z.int(),
  derived: z.boolean(),
  levelReference: z.enum(["transfer", "spl"]),
  quality: qualitySchema,
  arrival: z.strictObject({
    inFileS: value,
    timeS: value,
    polarity: z.union([z.literal(1), z.literal(-1)]),
  }),
  response: responseSchema,
  bands: z.array(bandSchema),
  reverberation: z.strictObject({ tMidS: value, tmS: value, method: z.string() }),
  /** Envelope of 1-8 kHz re the direct sound's peak. */
  energyTime: z.strictObject({ startS: z.number(), stepS: z.number(), levelDb: curve }).nullable(),
  reflections: z.array(reflectionSchema),
  /** Those of the room's single modes that ring clearly here. */
  modes: z.array(modeSchema),
  distortion: distortionSchema.nullable(),
  background: backgroundSchema.nullable(),
});

export type Measurement = z.infer<typeof measurementSchema>;
export type EnergyTime = NonNullable<Measurement["energyTime"]>;
export type Reflection = z.infer<typeof reflectionSchema>;
export type Distortion = z.infer<typeof distortionSchema>;
export type Background = z.infer<typeof backgroundSchema>;
