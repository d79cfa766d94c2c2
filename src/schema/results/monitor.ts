import { channelSchema, roleSchema } from "../session.js";
import { z } from "../zod.js";
import { bandDifferences } from "./band-differences.js";
import { checkSchema } from "./check.js";
import { curve, frequencies, value } from "./figures.js";
import { averageResponseSchema } from "./response.js";
import { targetSchema } from "./target.js";

/** What all measurements of one monitor come to. */
export const monitorSchema = z.strictObject({
  id: z.string(),
  name: z.string().nullable(),
  role: roleSchema,
  channels: z.array(channelSchema),
  response: averageResponseSchema.nullable(),
  responseReason: z.string().nullable(),
  positions: z
    .strictObject({
      ids: z.array(z.string()),
      response: averageResponseSchema,
      spreadDb: curve,
      /**
       * By third octave: energy mean, standard deviation across positions, and standard uncertainty of the mean over places
       * like these. Places within half a wavelength count as one; when all lie within a head's reach it says nothing of the
       * rest of the room.
       */
      bands: z.array(
        z.strictObject({ nominalHz: z.number(), levelDb: value, spreadDb: value, roomUncertaintyDb: value }),
      ),
      /**
       * By octave: mean over channels and positions, with what ISO 3382-2's formula says of it in the room; there, too, places
       * within half a wavelength count as one.
       */
      decay: z.array(z.strictObject({ nominalHz: z.number(), timeS: value, spreadS: value, roomUncertaintyS: value })),
    })
    .nullable(),
  extension: z
    .strictObject({
      minus3Hz: value,
      minus6Hz: value,
      minus10Hz: value,
      dipsHz: frequencies,
      flags: z.array(z.string()),
    })
    .nullable(),
  leftRight: z
    .strictObject({
      levelDb: value,
      levelUncertaintyDb: value,
      arrivalS: value,
      arrivalUncertaintyS: value,
      includesGain: z.boolean(),
      samePolarity: z.boolean(),
      bands: bandDifferences,
      /** Early reflections that one side has and the other has not. */
      oneSided: z.array(
        z.strictObject({
          channel: channelSchema,
          delayS: z.number(),
          levelDb: z.number(),
          levelUncertaintyDb: z.number(),
          /** The highest that the other side shows within the same time. */
          otherLevelDb: value,
        }),
      ),
      /** The phantom centre below 500 Hz, less the 6.02 dB that two equal sides in step would give, against either side. */
      phantom: z
        .array(
          z.strictObject({ nominalHz: z.number(), againstLeftDb: value, againstRightDb: value, uncertaintyDb: value }),
        )
        .nullable(),
    })
    .nullable(),
  leftRightReason: z.string().nullable(),
  target: targetSchema.nullable(),
  targetReason: z.string().nullable(),
  checks: z.array(checkSchema),
});

export type MonitorResult = z.infer<typeof monitorSchema>;
