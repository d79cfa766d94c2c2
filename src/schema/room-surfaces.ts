import { channelSchema } from "./session.js";
import { z } from "./zod.js";

/** The parts of `results.json` on what the room's surfaces do: reflections, dips, flutter, and what comes back from other rooms. */

const value = z.number().nullable();
const point = z.tuple([z.number(), z.number(), z.number()]);

/** A surface is called by its face, front, rear, left, right, floor or ceiling, or by the id of a panel. */
const surface = z.string();

/** The way from loudspeaker to microphone by one surface, as the places stated have it. */
const surfacePathSchema = z.strictObject({
  surface,
  detourM: z.number(),
  delayS: z.number(),
  /** Standard, by what is not known of the places. */
  detourUncertaintyM: z.number(),
  /** Where it meets the surface. */
  pointM: point,
  /** Where it comes from: 0 from the front wall, positive from the right; positive from above. */
  azimuthDeg: z.number(),
  elevationDeg: z.number(),
  /** Panels that stand in its way. */
  blockedBy: z.array(z.string()),
});

const originSchema = z.strictObject({
  /** Index in the measurement's `reflections`. */
  reflection: z.int(),
  /** One surface or two, in the order in which the sound meets them. */
  surfaces: z.array(surface),
  /** Chance that it comes that way, 0 to 1. */
  confidence: z.number(),
  /** Measured detour minus the expected one, what was learnt of the places taken off. */
  offM: z.number(),
});

const dipMoveSchema = z.strictObject({
  surface,
  /** Of the loudspeaker; negative: towards the surface. */
  awayM: z.number(),
  /** How far that raises it. */
  upM: z.number(),
  /** Where the dip lies then. */
  toHz: z.number(),
  /** Standard, by what is not known of the places; results of earlier versions have none. */
  toUncertaintyHz: z.number().optional(),
});

const dipsSchema = z.strictObject({
  rangeHz: z.tuple([z.number(), z.number()]),
  predicted: z.array(
    z.strictObject({
      surface,
      order: z.int(),
      frequencyHz: z.number(),
      frequencyUncertaintyHz: z.number(),
      /** From the heights beside it to the dip, with a surface that reflects everything. */
      mostDb: z.number(),
    }),
  ),
  measured: z.array(
    z.strictObject({
      frequencyHz: z.number(),
      depthDb: z.number(),
      /** Whether the other loudspeaker has one there too; null where it was not measured. */
      otherSide: z.boolean().nullable(),
      /** Indices of the predicted dips that fit, the nearest first. */
      fitting: z.array(z.int()),
      /** Chance that a dip anywhere in the range would fit one; faces whose place is not stated count as if they stood anywhere. */
      byChance: z.number(),
      /** Moves of the loudspeaker that shift the first that fits by a third of an octave. */
      moves: z.array(dipMoveSchema),
    }),
  ),
});

export const surfacesSchema = z.strictObject({
  /** Standard uncertainty of each stated coordinate. */
  placementUncertaintyM: z.number(),
  measurements: z.array(
    z.strictObject({
      id: z.string(),
      /** Why nothing could be predicted. */
      reason: z.string().nullable(),
      paths: z.array(surfacePathSchema),
      /** Panels that stand in the straight line from loudspeaker to microphone. */
      directBlockedBy: z.array(z.string()),
      /** By reflection, the likeliest first; reflections that no way fits are not in it. */
      origins: z.array(originSchema),
      /** At the mix position. */
      dips: dipsSchema.nullable(),
    }),
  ),
  /** What each panel does with each loudspeaker's sound at the mix position. */
  panels: z.array(
    z.strictObject({
      id: z.string(),
      monitor: z.string(),
      channel: channelSchema,
      /** Whether it reflects to the listener. */
      reaches: z.boolean(),
      /** Where what meets its middle passes the listener: over him, and aside; null where it does not come by. */
      aboveM: value,
      asideM: value,
    }),
  ),
});

export const flutterSchema = z.array(
  z.strictObject({
    measurement: z.string(),
    periodS: z.number(),
    distanceM: z.number(),
    distanceUncertaintyM: z.number(),
    /** Pairs of walls so far apart. */
    between: z.array(z.enum(["front and rear wall", "side walls", "floor and ceiling"])),
    /** Of its echoes 50 ms after the direct sound, re its peak. */
    levelDb: z.number(),
    /** Over what lies between them. */
    aboveDb: z.number(),
    t60S: z.number(),
    roundTripDb: z.number(),
    echoes: z.int(),
  }),
);

export const doubleSlopesSchema = z.array(
  z.strictObject({
    nominalHz: z.number(),
    /** Measurements taken together. */
    measurements: z.int(),
    earlyS: z.number(),
    lateS: z.number(),
    /** Standard. */
    earlyUncertaintyS: z.number(),
    lateUncertaintyS: z.number(),
    /** On the backward-integrated curve at the arrival: the late part under the early one. */
    apartDb: z.number(),
    /** After the arrival: where the two are equal, and how far the curve has fallen there. */
    turnS: z.number(),
    turnDb: z.number(),
  }),
);

export type Surfaces = z.infer<typeof surfacesSchema>;
export type MeasurementSurfaces = Surfaces["measurements"][number];
export type SurfaceDips = z.infer<typeof dipsSchema>;
export type FlutterResult = z.infer<typeof flutterSchema>[number];
export type DoubleSlopeResult = z.infer<typeof doubleSlopesSchema>[number];
