import { z } from "./zod.js";

/** What the measurements mean for decisions: `translation` in `results.json`. */

const value = z.number().nullable();
const range = z.tuple([z.number(), z.number()]);
/** How a figure is known. */
const label = z.enum(["measured", "literature", "choice", "stated in the session"]);
export const gradeSchema = z.enum(["believe", "care", "blind"]);
export const reasonCodes = z.enum([
  "deviation-peak",
  "deviation-dip",
  "left-right",
  "ringing",
  "early-reflection",
  "spread",
  "extension",
  "audibility",
  "distortion",
  "uncertainty",
  "one-place",
  "not-measured",
]);
const driftReason = z.enum(["blind", "not-measured", "heard-on-not-measured", "heard-on-not-stated"]).nullable();

const driftFigures = {
  /** Louder than intended is positive; null where not controlled or not measured. */
  driftDb: value,
  rangeDb: range.nullable(),
  /** False where what it was mixed on is blind: no sign is claimed, the range is what recordings differ by. */
  controlled: z.boolean(),
  /** What this room has put into the mix, and what the other system does to every mix. In a band their sum is the drift. */
  roomShareDb: value,
  roomShareRangeDb: range.nullable(),
  systemShareDb: value,
  /** Of a class from a poor to a good member; else by the uncertainty of the measurement (k = 2). */
  systemShareRangeDb: range.nullable(),
  reason: driftReason,
};

const driftSchema = z.strictObject({
  mixedOn: z.string(),
  /** A monitor's id, `neutral`, or `class:<id>`. */
  heardOn: z.string(),
  label,
  uncontrolledBelowHz: value,
  bands: z.array(z.strictObject({ nominalHz: z.number(), ...driftFigures })),
  /** Energy means over the bands, each weighing what the programme holds there. */
  regions: z.array(
    z.strictObject({
      region: z.string(),
      ...driftFigures,
      size: z.enum(["small", "clear", "strong"]).nullable(),
    }),
  ),
  worst: z.strictObject({ nominalHz: z.number(), driftDb: z.number(), of: z.enum(["whole", "room-share"]) }).nullable(),
  /** In words; null where nothing is worth a sentence. */
  says: z.string().nullable(),
});

export const translationSchema = z.strictObject({
  /** `popular`, `pink`, or the name of the mix whose long-term spectrum stands for it. */
  programme: z.string(),
  /** Its levels with a neutral system, dB SPL; null where it holds nothing. */
  programmeBands: z.array(z.strictObject({ nominalHz: z.number(), levelDb: value })),
  /** C-weighted, dB SPL. */
  listeningLevelDb: z.number(),
  compensation: z.number(),
  compensationRange: range,
  /** What the range of a drift is where nobody controls a band. */
  uncontrolledRange: z.strictObject({ label, source: z.string() }),
  /** The one curve that is called neutral. */
  reference: z.strictObject({ id: z.string(), source: z.string() }),
  /** Parameters of the model that are not in the table of limits. */
  parameters: z.array(z.strictObject({ name: z.string(), value: z.number(), label, source: z.string() })),
  limits: z.array(
    z.strictObject({
      code: reasonCodes,
      care: z.number(),
      blind: value,
      unit: z.string(),
      side: z.enum(["above", "below"]),
      rangeHz: range,
      label,
      source: z.string(),
    }),
  ),
  /** What each monitor does to the tone at the mix position, re the reference, aligned over 200 Hz-4 kHz. */
  deviations: z.array(
    z.strictObject({
      monitor: z.string(),
      label,
      /** Why nothing is known; else null. */
      reason: z.string().nullable(),
      bands: z.array(
        z.strictObject({
          nominalHz: z.number(),
          deviationDb: value,
          uncertaintyDb: value,
          /** Standard deviation over places within a head's reach. */
          spreadDb: value,
          /** How far the programme's notes stand over the threshold of hearing or the room's noise. */
          audibleMarginDb: value,
        }),
      ),
      /** Of the programme at the listening level, beside a neutral monitor; null where a band is not known or beyond ISO 532-1. */
      loudness: z
        .strictObject({
          lostShare: z.number(),
          /** Specific loudness, sone per Bark, for differences only. */
          barks: z.array(z.strictObject({ bark: z.number(), neutral: z.number(), heard: z.number() })),
        })
        .nullable(),
    }),
  ),
  trust: z.array(
    z.strictObject({
      monitor: z.string(),
      bands: z.array(
        z.strictObject({
          nominalHz: z.number(),
          /** Null where not measured. */
          grade: gradeSchema.nullable(),
          reasons: z.array(
            z.strictObject({
              code: reasonCodes,
              grade: z.enum(["care", "blind"]).nullable(),
              value: value,
              limit: value,
              unit: z.string().nullable(),
            }),
          ),
        }),
      ),
      /** What could not be judged, so that nothing speaks against the monitor there. */
      notJudged: z.array(z.strictObject({ what: z.string(), reason: z.string() })),
    }),
  ),
  guide: z.array(
    z.strictObject({
      region: z.string(),
      fromHz: z.number(),
      toHz: z.number(),
      carries: z.string(),
      believe: z.array(z.string()),
      care: z.array(z.string()),
      blind: z.array(z.string()),
      unknown: z.array(z.string()),
      verdict: z.enum(["all", "some", "with-care", "none", "not-measured"]),
      advice: z.string(),
      because: z.array(z.strictObject({ monitor: z.string(), codes: z.array(reasonCodes) })),
    }),
  ),
  /** Why there is no guide, or what it lacks. */
  guideReason: z.enum(["no-monitor-to-mix-on", "one-monitor"]).nullable(),
  drift: z.array(driftSchema),
  driftReason: z.enum(["no-monitor-to-mix-on", "no-deviation-known"]).nullable(),
  classes: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      /** In words; null where the session does not say. */
      loses: z.string().nullable(),
      mono: z.boolean(),
      label: label.exclude(["measured"]),
      source: z.string(),
      /** A-weighted level of music on it and of the noise around it, dB; null where not stated, and then neither guessed. */
      levelDba: value,
      noiseDba: value,
      reasons: z.array(z.enum(["level-not-stated", "noise-not-stated"])),
      /** Null where its table states nothing. */
      bands: z.array(z.strictObject({ nominalHz: z.number(), lowDb: value, typicalDb: value, highDb: value })),
    }),
  ),
  /** How the balance seems to change at another listening level; never part of a drift. */
  levelShifts: z.array(
    z.strictObject({
      heardOn: z.string(),
      fromDb: z.number(),
      toDb: z.number(),
      label,
      source: z.string(),
      bands: z.array(z.strictObject({ nominalHz: z.number(), shiftDb: value })),
    }),
  ),
  /** What a moving car's noise covers; never part of a drift. */
  masking: z.array(
    z.strictObject({
      heardOn: z.string(),
      speedKmh: z.number(),
      levelDba: z.number(),
      maskedBelowHz: value,
      label,
      source: z.string(),
      bands: z.array(z.strictObject({ nominalHz: z.number(), overNoiseDb: value })),
    }),
  ),
});
