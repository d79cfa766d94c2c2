import { z } from "./zod.js";

/** `session.json`, version 1: what was recorded, where and with what. */

const id = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9_]{0,31}$/)
  .refine((text) => text.toLowerCase() !== "neutral");
const point = z.tuple([z.number(), z.number(), z.number()]);
const file = z.string().min(1);
const positive = z.number().positive();

export const roleSchema = z.enum([
  "main",
  "midfield",
  "nearfield",
  "check",
  "car",
  "phone",
  "laptop",
  "tv",
  "headphone",
  "other",
]);

export const channelSchema = z.enum(["L", "R", "both"]);

const monitorSchema = z.strictObject({
  id,
  role: roleSchema,
  name: z.string().optional(),
  target: z.string().optional(),
  processing: z.string().optional(),
  placement: z.strictObject({ L: point.optional(), R: point.optional() }).optional(),
});

const positionSchema = z.strictObject({
  id,
  kind: z.enum(["mix", "near", "room"]),
  xyzM: point.optional(),
});

const recordingSchema = z.strictObject({
  file,
  // Any text: an id that does not exist rejects this one recording, not the session.
  monitor: z.string(),
  position: z.string(),
  take: z.int().positive().default(1),
  channel: channelSchema.optional(),
  fileChannel: z.int().positive().optional(),
  loopback: z.int().positive().optional(),
  kind: z.enum(["sweep", "impulse"]).default("sweep"),
  timeZeroSample: z.number().nonnegative().optional(),
  sweep: file.optional(),
});

/** A kind of device of one's own: its range of responses in a table. */
const playbackClassSchema = z.strictObject({
  id,
  name: z.string().min(1),
  file,
  loses: z.string().min(1).optional(),
  mono: z.boolean().default(false),
  /** A-weighted level at which music is heard on it, and of the noise around it, dB. */
  levelDba: z.number().min(20).max(110).optional(),
  noiseDba: z.number().min(0).max(110).optional(),
});

export const sessionSchema = z.strictObject({
  schema: z.literal("carrywell/session/1"),
  title: z.string().optional(),
  date: z.string().optional(),
  engineer: z.string().optional(),
  client: z.string().optional(),
  notes: z.string().optional(),
  room: z
    .strictObject({
      name: z.string().optional(),
      lengthM: positive.optional(),
      widthM: positive.optional(),
      heightM: positive.optional(),
      volumeM3: positive.optional(),
      notes: z.string().optional(),
    })
    .optional(),
  panels: z
    .array(z.strictObject({ id, centreM: point, normal: point, widthM: positive, heightM: positive }))
    .optional(),
  environment: z
    .strictObject({
      temperatureC: z.number().min(-40).max(60).optional(),
      relativeHumidityPercent: z.number().min(0).max(100).optional(),
      pressureKPa: positive.optional(),
    })
    .optional(),
  microphone: z
    .strictObject({
      name: z.string().optional(),
      calibration: file.optional(),
      /** In place of one table: several, of which `orientationDeg` picks. */
      calibrations: z
        .array(z.strictObject({ file, orientationDeg: z.number().min(0).max(180) }))
        .min(1)
        .optional(),
      orientationDeg: z.number().optional(),
      gainFixed: z.boolean().optional(),
      level: z.strictObject({ file, soundPressureLevelDb: z.number() }).optional(),
    })
    .optional(),
  sweep: file,
  monitors: z.array(monitorSchema).min(1),
  positions: z.array(positionSchema).min(1),
  recordings: z.array(recordingSchema).min(1),
  targets: z.array(z.strictObject({ id, file })).optional(),
  reference: z.string().optional(),
  playbackClasses: z.array(playbackClassSchema).optional(),
  translation: z
    .strictObject({
      /** `popular`, `pink`, or the name of a sound file in the session's folder. */
      programme: z.string().min(1).optional(),
      listeningLevelDb: z.number().optional(),
      compensation: z.number().min(0).max(1).optional(),
      referenceUse: z.number().min(0).max(1).optional(),
    })
    .optional(),
});

export type Session = z.infer<typeof sessionSchema>;
/** A session as a person writes it: what has a default may be left out. */
export type SessionText = z.input<typeof sessionSchema>;
export type Recording = z.infer<typeof recordingSchema>;
export type ChannelName = z.infer<typeof channelSchema>;
