import { channelSchema } from "./session.js";
import { gradeSchema, reasonCodes } from "./translation.js";
import { z } from "./zod.js";

/** The part of `results.json` on what would help: for each trouble that the findings tell, which kind of measure works there. */

const value = z.number().nullable();

/** How deep a porous layer on a rigid wall must be to take a share of what comes from all sides. */
const depthSchema = z.strictObject({
  /** Pa s/m². */
  resistivity: z.number(),
  absorption: z.number(),
  /** Null where no layer of up to 2 m takes so much. */
  depthM: value,
  /** What is taken when the rear half of that depth is air. */
  withHalfAir: value,
  /** What is taken of sound that meets that depth at right angles, as an axial mode does. */
  straightOn: value,
  /** False where frequency over resistivity lies outside what was measured: the model's word alone. */
  tested: z.boolean(),
});

const measureSchema = z.discriminatedUnion("kind", [
  z.strictObject({
    kind: z.literal("porous"),
    frequencyHz: z.number(),
    quarterWaveM: z.number(),
    /** The surface it belongs on, each of several that are as likely, or both side walls of a dip of both sides; none where none is named. */
    surfaces: z.array(z.string()),
    /** Share that must be taken for the limit to be kept, had the surface taken nothing before; null where there is no such limit. */
    neededAbsorption: value,
    depths: z.array(depthSchema),
  }),
  /** A floor that is walked on, or a top that is worked at: what lies on it cannot be deep. */
  z.strictObject({
    kind: z.literal("cover"),
    surface: z.string(),
    use: z.enum(["floor", "top"]),
    frequencyHz: z.number(),
    neededAbsorption: value,
    /** What thin layers take of the sound from all sides, by the flow resistivity: least and most. */
    covers: z.array(z.strictObject({ depthM: z.number(), least: z.number(), most: z.number() })),
  }),
  z.strictObject({
    kind: z.literal("tuned"),
    frequencyHz: z.number(),
    /** A limp sheet before a closed box. */
    membranes: z.array(z.strictObject({ cavityM: z.number(), massKgPerM2: z.number() })),
    /** A plate with round holes before a closed box; share of its area that is open. */
    holedPlates: z.array(
      z.strictObject({ cavityM: z.number(), plateM: z.number(), holeM: z.number(), openShare: value }),
    ),
  }),
  z.strictObject({
    kind: z.literal("diffusion"),
    surface: z.string().nullable(),
    frequencyHz: z.number(),
    depthM: z.number(),
    leastDistanceM: z.number(),
    /** From the surface to the listener; null where not known. */
    distanceM: value,
    /** Null where the distance is not known. */
    possible: z.boolean().nullable(),
  }),
  /** Several surfaces fit a reflection about as well: which one it is must be found first. */
  z.strictObject({
    kind: z.literal("find-surface"),
    surfaces: z.array(z.strictObject({ surface: z.string(), confidence: z.number() })),
  }),
  z.strictObject({
    kind: z.literal("turn"),
    surface: z.string().nullable(),
    /** Whether a board on it does as well. */
    boardToo: z.boolean(),
    /** So far its reflection then passes the listener. */
    asideM: z.number(),
    /** Null where the distance is not known. */
    angleDeg: value,
  }),
  z.strictObject({
    kind: z.literal("move-loudspeaker"),
    monitor: z.string(),
    channel: channelSchema,
    surface: z.string(),
    /** Away from the surface; negative: towards it. */
    awayM: z.number(),
    /** How far that raises it. */
    upM: z.number(),
    fromHz: z.number(),
    toHz: z.number(),
    /** Standard; results of earlier versions have none. */
    toUncertaintyHz: z.number().optional(),
  }),
  z.strictObject({
    kind: z.literal("move-listener"),
    /** From the front wall; negative: towards it. */
    byM: z.number(),
    /** Of a mode between front and rear wall, re its level at the walls. */
    nowDb: z.number(),
    thenDb: z.number(),
    /** Least and most within what the seat's place is known to, twice its standard uncertainty. */
    nowRangeDb: z.tuple([z.number(), z.number()]),
    thenRangeDb: z.tuple([z.number(), z.number()]),
  }),
  z.strictObject({
    kind: z.literal("level"),
    monitor: z.string(),
    /** The side to turn down. */
    channel: channelSchema,
    byDb: z.number(),
    /** Expanded. */
    uncertaintyDb: value,
  }),
  z.strictObject({
    kind: z.literal("delay"),
    monitor: z.string(),
    /** The side that comes first. */
    channel: channelSchema,
    byS: z.number(),
    /** Expanded. */
    uncertaintyS: value,
    /** By so much further away it does without a delay. */
    orM: z.number(),
  }),
  z.strictObject({
    kind: z.literal("equaliser"),
    /** Whether it mends the level there, null where the cause would have to be known; it never shortens a decay. */
    works: z.boolean().nullable(),
    /** What filling would ask for. */
    boostDb: value,
    timesPower: value,
  }),
  z.strictObject({
    kind: z.literal("area"),
    fromS: z.number(),
    toS: z.number(),
    /** Of surface that takes everything, by Sabine; null where the room's volume is not known. */
    areaM2: value,
  }),
  /** Other places of listener or loudspeakers, tried and measured: a quarter of the wavelength leads out of a dip. */
  z.strictObject({ kind: z.literal("try-places"), frequencyHz: z.number(), quarterWaveM: z.number() }),
  z.strictObject({ kind: z.literal("close-opening") }),
  z.strictObject({ kind: z.literal("find-difference") }),
]);

const gainSchema = z.strictObject({
  /** Reasons that would vanish; none where the trust map has no reason for this trouble. */
  codes: z.array(reasonCodes),
  /** Third octaves whose grade would rise, of all monitors; of those, the ones to `believe`. */
  rises: z.int(),
  toBelieve: z.int(),
  /** Third octaves that would fall, since a change of level shifts all. */
  falls: z.int(),
  bands: z.array(z.strictObject({ monitor: z.string(), nominalHz: z.number(), from: gradeSchema, to: gradeSchema })),
});

export const treatmentSchema = z.strictObject({
  /** Most useful to the trust map first. */
  problems: z.array(
    z.strictObject({
      /** Index in `findings`. */
      finding: z.int(),
      /** Further findings that tell the same trouble. */
      also: z.array(z.int()),
      /** Null where there is no trust map. */
      trust: gainSchema.nullable(),
      measures: z.array(measureSchema),
    }),
  ),
});

export type Treatment = z.infer<typeof treatmentSchema>;
export type TreatedProblem = Treatment["problems"][number];
export type Measure = TreatedProblem["measures"][number];
export type TrustGain = z.infer<typeof gainSchema>;
export type PorousDepth = z.infer<typeof depthSchema>;
