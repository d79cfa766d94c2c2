import { channelSchema } from "./session.js";
import { z } from "./zod.js";

/** `changes.json`, version 1: what differs between two sessions, or between two monitors, and whether that is real. */

const value = z.number().nullable();

const quantitySchema = z.strictObject({
  quantity: z.string(),
  /** Midband, or the frequency of a mode; null where the quantity has none. */
  bandHz: value,
  /** 1: octave, 3: third octave. */
  fraction: z.union([z.literal(1), z.literal(3)]).nullable(),
  /** Delay of a reflection, before where there is one. */
  atS: value,
  /** `grade`: 2 believe, 1 care, 0 blind. */
  unit: z.enum(["dB", "s", "Hz", "grade"]),
  before: value,
  after: value,
  /** On this side it was not found: what stands there is the most that can be there. Null where both found it. */
  missing: z.enum(["before", "after"]).nullable(),
  /** After minus before. */
  difference: value,
  /** Expanded (k = 2) uncertainty of the difference: about 95 % for this one, if nothing else were judged. */
  uncertainty: value,
  justNoticeable: value,
  /** A difference must be larger than this to be called real here: see `chance`. */
  needed: value,
  /** Whether it has changed at all. */
  change: z.enum(["real", "none", "cannot-tell"]),
  /** A real change that brings it no nearer to anything published, nor farther, is `cannot-tell` as well. */
  verdict: z.enum(["better", "worse", "no-real-change", "cannot-tell"]),
  because: z.string(),
});

const pairSchema = z.strictObject({
  /** Of the measurement or the monitor before; with another one after, both. */
  id: z.string(),
  kind: z.enum(["measurement", "monitor"]),
  before: z.string(),
  after: z.string(),
  monitor: z.string(),
  channel: channelSchema.nullable(),
  position: z.string().nullable(),
  /** Computed from left and right. */
  derived: z.boolean(),
  /** How far apart the two places of the microphone may be: root mean square, metres. */
  apartM: value,
  quantities: z.array(quantitySchema),
});

const sideSchema = z.strictObject({
  title: z.string().nullable(),
  date: z.string().nullable(),
  room: z.string().nullable(),
  notes: z.string().nullable(),
  /** Where two monitors are compared: this one. */
  monitor: z.string().nullable(),
  /** Of the program that measured it. */
  version: z.string(),
});

const unpairedSchema = z.strictObject({
  what: z.enum(["monitor", "measurement", "sweep", "microphone", "target", "bands", "recording"]),
  id: z.string(),
  in: z.enum(["before", "after", "both"]),
  because: z.string(),
});

const saidSchema = z.strictObject({
  topic: z.enum(["better", "worse", "changed", "same", "unknown"]),
  monitor: z.string().nullable(),
  message: z.string(),
  /** What would tell more; null where nothing is open. */
  remedy: z.string().nullable(),
  /** The figures behind it, in words; null where there are none. */
  figures: z.string().nullable(),
  /** Times the just noticeable difference, by which what is said of one topic stands in order; null for a count, which stands first. */
  size: value,
  /** Whether the value behind it has become larger, where what to do hangs on that. */
  rises: z.boolean().optional(),
  quantity: z.string(),
});

export const changesSchema = z.strictObject({
  schema: z.literal("carrywell/changes/1"),
  version: z.string(),
  compares: z.enum(["sessions", "monitors"]),
  before: sideSchema,
  after: sideSchema,
  /** Id of the mix position; null where the session before has none. */
  mixPosition: z.string().nullable(),
  /** Within this distance of where it stood the microphone was put back, metres, 95 times in a hundred; 0: not touched. */
  placementM: z.number(),
  /** How it is kept in check that among so many quantities some differ by chance. */
  chance: z.strictObject({
    /** Quantities that were judged. */
    judged: z.int(),
    /** Of calling anything real at all if nothing had changed: at most. */
    atMost: z.number(),
    /** What the limits below come to, by the sum of all chances. */
    expected: z.number(),
    /** Of measurements sharp enough for the just noticeable difference, and of the others. */
    sharpCoverage: z.number(),
    bluntCoverage: z.number(),
  }),
  justNoticeable: z.array(
    z.strictObject({
      quantity: z.string(),
      value: z.number(),
      unit: z.enum(["dB", "s", "share", "octaves"]),
      lent: z.boolean(),
      source: z.string(),
    }),
  ),
  unpaired: z.array(unpairedSchema),
  pairs: z.array(pairSchema),
  /** What it comes to, in words, the largest first. */
  says: z.array(saidSchema),
});

export type Changes = z.infer<typeof changesSchema>;
/** What a comparison finds, before anybody has said what it comes to. */
export type Compared = Omit<Changes, "schema" | "version" | "says">;
export type ChangePair = z.infer<typeof pairSchema>;
export type ChangedQuantity = z.infer<typeof quantitySchema>;
export type Unpaired = z.infer<typeof unpairedSchema>;
export type Said = z.infer<typeof saidSchema>;
