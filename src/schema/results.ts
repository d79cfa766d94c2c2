import { modeSchema, roomModesSchema } from "./room-modes.js";
import { doubleSlopesSchema, flutterSchema, surfacesSchema } from "./room-surfaces.js";
import { channelSchema, roleSchema, sessionSchema } from "./session.js";
import { translationSchema } from "./translation.js";
import { treatmentSchema } from "./treatment.js";
import { z } from "./zod.js";

/** `results.json`, version 1: the one truth that every report, table and page reads. */

const value = z.number().nullable();
const curve = z.array(value);
const frequencies = z.array(z.number());
const range = z.tuple([z.number(), z.number()]);

const findingSchema = z.strictObject({
  code: z.string(),
  severity: z.enum(["info", "warning", "reject"]),
  /** What to believe, what to mend, what the data cannot say; or the recordings themselves. */
  topic: z.enum(["trust", "mend", "unknown", "recording"]),
  message: z.string(),
  remedy: z.string().nullable(),
  value: value,
  /** Expanded (k = 2), in the same unit. */
  uncertainty: value,
  unit: z.string().nullable(),
  limit: value,
  /** Where the limit comes from. */
  source: z.string().nullable(),
  /** Times the least that is heard; findings of one topic stand in this order. Null where nothing is heard of it. */
  audibility: value,
  atS: value,
  bandHz: value,
  /** Edges of the bands concerned. */
  rangeHz: range.nullable(),
  monitors: z.array(z.string()),
  channels: z.array(channelSchema),
  recordings: z.array(z.string()),
});

const responseSchema = z.strictObject({
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

const averageResponseSchema = z.strictObject({
  frequencyHz: frequencies,
  levelDb: curve,
  toneDb: curve,
  uncertaintyDb: curve,
});

const bandSchema = z.strictObject({
  fraction: z.union([z.literal(1), z.literal(3)]),
  nominalHz: z.number(),
  exactHz: z.number(),
  levelDb: value,
  /** Standard uncertainty of levelDb at this position. */
  levelUncertaintyDb: value,
  /** What the noise of the silent lead adds to the band, on the scale of levelDb. */
  noiseDb: value,
  edtS: value,
  t20S: value,
  t30S: value,
  lateS: value,
  c50Db: value,
  c80Db: value,
  d50: value,
  tsS: value,
  /** Standard uncertainties; results of earlier versions have none. */
  c50UncertaintyDb: value.optional(),
  c80UncertaintyDb: value.optional(),
  decayRangeDb: value,
  nonLinearityPerMille: value,
  curvaturePercent: value,
  /** Standard uncertainty of t30S, or of t20S where t30S is null, in seconds. */
  decayUncertaintyS: value,
  /** Of edtS; results of earlier versions have none. */
  edtUncertaintyS: value.optional(),
  /** Standard uncertainty of lateS. */
  lateUncertaintyS: value,
  flags: z.array(z.string()),
});

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

const qualitySchema = z.strictObject({
  usable: z.boolean(),
  peakDbfs: value,
  clippedSamples: z.int(),
  clockDriftPpm: value,
  clockDriftUncertaintyPpm: value,
  clockDriftCorrected: z.boolean(),
  signalToNoiseDb: value,
  repeatabilityDb: value,
  /** What the impulse response does not explain, against the noise of the silent lead. */
  residual: z
    .strictObject({
      blockS: z.number(),
      medianExcessDb: value,
      worstExcessDb: value,
      worstAtS: value,
      worstBandHz: value,
    })
    .nullable(),
  findings: z.array(findingSchema),
});

const measurementSchema = z.strictObject({
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

/** Uncertainties are standard uncertainties at this position unless their key says otherwise. */
const bandDifferences = z.array(z.strictObject({ nominalHz: z.number(), differenceDb: value, uncertaintyDb: value }));

const targetSchema = z.strictObject({
  id: z.string(),
  /** Where curve and limits come from. */
  source: z.string(),
  /** True where the limits are remembered, disputed or chosen by us: no pass or fail hangs on them. */
  advisory: z.boolean(),
  /** What was added to the target so that it lies on the measured curve over the range of the fit. */
  offsetDb: value,
  fitHz: range,
  /** Share of the bands with limits that keep to them. */
  withinPercent: value,
  rmsDb: value,
  bands: z.array(
    z.strictObject({
      nominalHz: z.number(),
      /** The target's own curve, without the offset. */
      targetDb: value,
      /** Measured minus target, offset included. */
      deviationDb: value,
      uncertaintyDb: value,
      /** Limits of the deviation; null where there is none. */
      lowerDb: value,
      upperDb: value,
    }),
  ),
});

/** One limit of a recommendation, held against what was measured. */
const checkSchema = z.strictObject({
  code: z.string(),
  source: z.string(),
  limit: z.string(),
  /** The worst value found; null when it could not be judged, with the reason. */
  value: value,
  unit: z.string().nullable(),
  pass: z.boolean().nullable(),
  reason: z.string().nullable(),
  advisory: z.boolean(),
  channel: channelSchema.nullable(),
  bandHz: value,
});

const decayDifference = z.strictObject({
  nominalHz: z.number(),
  aS: value,
  bS: value,
  differenceS: value,
  uncertaintyS: value,
});

const monitorSchema = z.strictObject({
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

export const resultsSchema = z.strictObject({
  schema: z.literal("carrywell/results/1"),
  session: sessionSchema,
  provenance: z.strictObject({
    version: z.string(),
    settings: z.record(z.string(), z.union([z.number(), z.string(), z.boolean()])),
    files: z.array(
      z.strictObject({
        file: z.string(),
        sha256: z.string(),
        bytes: z.int(),
        use: z.string(),
        sampleRate: value,
        channels: value,
        durationS: value,
        encoding: z.string().nullable(),
      }),
    ),
  }),
  measurements: z.array(measurementSchema),
  monitors: z.array(monitorSchema),
  comparisons: z.array(
    z.strictObject({
      a: z.string(),
      b: z.string(),
      levelOffsetDb: value,
      levelUncertaintyDb: value,
      includesGain: z.boolean(),
      /** At the mix position; the level offset is contained. */
      bands: bandDifferences,
      /** Between the means over the positions that both have, two at least, with their room uncertainties; offset contained. */
      roomBands: bandDifferences.nullable(),
      /** -6 dB ends, and how many octaves a reaches below b. */
      extension: z.strictObject({ aHz: value, bHz: value, gapOctaves: value }),
      /** Time of flight, a minus b, mean of the channels; needs a loopback or a known time zero. */
      arrivalS: value,
      arrivalReason: z.string().nullable(),
      /** By octave at the mix position, mean of the channels. */
      decay: z.array(decayDifference),
      /** Ranges of third octaves, edge to edge, in which, levels aligned, one shows what the other hides. */
      shows: z.array(
        z.strictObject({
          monitor: z.string(),
          other: z.string(),
          kind: z.enum(["reach", "level"]),
          fromHz: z.number(),
          toHz: z.number(),
          /** Of the energy means over the range, the one that shows minus the other. */
          differenceDb: z.number(),
          uncertaintyDb: z.number(),
        }),
      ),
    }),
  ),
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
export type Finding = z.infer<typeof findingSchema>;
export type Measurement = z.infer<typeof measurementSchema>;
export type MonitorResult = z.infer<typeof monitorSchema>;
export type BandMetrics = z.infer<typeof bandSchema>;
export type Reflection = z.infer<typeof reflectionSchema>;
export type Response = z.infer<typeof responseSchema>;
export type AverageResponse = z.infer<typeof averageResponseSchema>;
export type Distortion = z.infer<typeof distortionSchema>;
export type Background = z.infer<typeof backgroundSchema>;
export type TargetResult = z.infer<typeof targetSchema>;
export type Check = z.infer<typeof checkSchema>;
export type Translation = NonNullable<Results["translation"]>;
export type EnergyTime = NonNullable<Measurement["energyTime"]>;
