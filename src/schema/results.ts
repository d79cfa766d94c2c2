import { channelSchema, roleSchema, sessionSchema } from "./session.js";
import { z } from "./zod.js";

/** `results.json`, version 1: the one truth that every report, table and page reads. */

const value = z.number().nullable();
const curve = z.array(value);
const frequencies = z.array(z.number());
const range = z.tuple([z.number(), z.number()]);

const findingSchema = z.strictObject({
  code: z.string(),
  severity: z.enum(["info", "warning", "reject"]),
  message: z.string(),
  remedy: z.string().nullable(),
  value: value,
  unit: z.string().nullable(),
  limit: value,
  atS: value,
  bandHz: value,
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
  decayRangeDb: value,
  nonLinearityPerMille: value,
  curvaturePercent: value,
  /** Standard uncertainty of t30S, or of t20S where t30S is null, in seconds. */
  decayUncertaintyS: value,
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

const modeSchema = z.strictObject({ frequencyHz: z.number(), t60S: z.number(), levelDb: z.number() });

const distortionSchema = z.strictObject({
  frequencyHz: frequencies,
  harmonicsDb: z.record(z.string(), curve),
  thdPercent: curve,
});

const backgroundSchema = z.strictObject({
  /** dbfs: re a full-scale sine; spl: re 20 uPa. */
  levelReference: z.enum(["dbfs", "spl"]),
  bands: z.array(z.strictObject({ nominalHz: z.number(), levelDb: value })),
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
  modes: z.array(modeSchema),
  distortion: distortionSchema.nullable(),
  background: backgroundSchema.nullable(),
});

const bandDifferences = z.array(z.strictObject({ nominalHz: z.number(), differenceDb: value }));

const monitorSchema = z.strictObject({
  id: z.string(),
  name: z.string().nullable(),
  role: roleSchema,
  channels: z.array(channelSchema),
  response: averageResponseSchema.nullable(),
  responseReason: z.string().nullable(),
  positions: z.strictObject({ ids: z.array(z.string()), response: averageResponseSchema, spreadDb: curve }).nullable(),
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
      arrivalS: value,
      arrivalUncertaintyS: value,
      includesGain: z.boolean(),
      samePolarity: z.boolean(),
      bands: bandDifferences,
    })
    .nullable(),
  leftRightReason: z.string().nullable(),
  target: z.null(),
  checks: z.array(z.never()),
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
      includesGain: z.boolean(),
      bands: bandDifferences,
    }),
  ),
  translation: z.null(),
  findings: z.array(findingSchema),
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
export type EnergyTime = NonNullable<Measurement["energyTime"]>;
