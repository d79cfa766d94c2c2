/** What the grades and the drift hang on, all in one place, each with its source or marked as a choice of ours. */

/** How a figure is known. */
type Label = "measured" | "literature" | "choice";

/** Codes of the reasons for a grade. */
export type ReasonCode =
  | "deviation-peak"
  | "deviation-dip"
  | "left-right"
  | "ringing"
  | "early-reflection"
  | "spread"
  | "extension"
  | "audibility"
  | "distortion"
  | "uncertainty"
  | "one-place"
  | "not-measured";

/** One row of the table: beyond `care` a band is believed no more, beyond `blind` it says nothing. */
export interface GradeLimit {
  readonly code: ReasonCode;
  readonly care: number;
  /** Null where this alone never blinds. */
  readonly blind: number | null;
  readonly unit: string;
  /** Whether less than the limit is bad, as with levels that must be reached. */
  readonly side: "above" | "below";
  /** Nominal bands it is held against. */
  readonly rangeHz: readonly [number, number];
  readonly label: Label;
  readonly source: string;
}

const ALL_HZ = [25, 16_000] as const;

export const LIMITS = {
  peak: {
    code: "deviation-peak",
    care: 2.5,
    blind: 6,
    unit: "dB",
    side: "above",
    rangeHz: ALL_HZ,
    label: "literature",
    source:
      "care: least peak heard with popular music, 2.5 dB in one third octave, 1.7 dB over an octave, 1.5 dB when wider, Toole and Olive 1988 as restated; blind: a choice of ours",
  },
  dip: {
    code: "deviation-dip",
    care: 5,
    blind: 10,
    unit: "dB",
    side: "above",
    rangeHz: ALL_HZ,
    label: "choice",
    source: "twice the peak, since dips are less heard (Buecklein 1962 for the direction); a choice of ours",
  },
  leftRightLow: {
    code: "left-right",
    care: 3,
    blind: 6,
    unit: "dB",
    side: "above",
    rangeHz: [25, 200],
    label: "choice",
    source: "a choice of ours",
  },
  leftRight: {
    code: "left-right",
    care: 2,
    blind: 4,
    unit: "dB",
    side: "above",
    rangeHz: [250, 16_000],
    label: "literature",
    source: "care: 2 dB, ITU-R BS.1116-3, from memory; blind and the range above 2 kHz: a choice of ours",
  },
  /** Times what is not heard, and only where the band also stands out by what is heard of a peak. */
  ringing: {
    code: "ringing",
    care: 1,
    blind: 2,
    unit: "s",
    side: "above",
    rangeHz: [25, 250],
    label: "literature",
    source:
      "once and twice the longest unheard decay of a low mode, Stephenson 2012 and Fazenda et al. 2015 (partly from memory), where the level stands out as well; the factors are a choice of ours",
  },
  reflection: {
    code: "early-reflection",
    care: -10,
    blind: null,
    unit: "dB",
    side: "above",
    rangeHz: [1000, 8000],
    label: "literature",
    source: "10 dB under the direct sound up to 15 ms, 1-8 kHz, ITU-R BS.1116-3 and EBU Tech 3276, from memory",
  },
  spread: {
    code: "spread",
    care: 1.5,
    blind: 3,
    unit: "dB",
    side: "above",
    rangeHz: ALL_HZ,
    label: "choice",
    source:
      "standard deviation over places within a head's reach; informed by a simulation of 60 rooms (worst tenth 1.6 dB within 10 cm, 3.4 dB within 30 cm); a choice of ours",
  },
  extension: {
    code: "extension",
    care: -6,
    blind: -10,
    unit: "dB",
    side: "below",
    rangeHz: ALL_HZ,
    label: "literature",
    source:
      "re 200 Hz-4 kHz; 10 dB as in the effective range of IEC 60268-5 (read in a glossary), 6 dB common practice",
  },
  audibility: {
    code: "audibility",
    care: 10,
    blind: 0,
    unit: "dB",
    side: "below",
    rangeHz: ALL_HZ,
    label: "choice",
    source:
      "level of the programme's notes, 10 dB over its long-term level, above the threshold of hearing (ISO 226) or the room's noise; the 10 dB are a choice of ours",
  },
  distortion: {
    code: "distortion",
    care: 10,
    blind: 30,
    unit: "%",
    side: "above",
    rangeHz: [25, 160],
    label: "literature",
    source:
      "for the pitch of a bass note, from memory, medium confidence; at the level of the sweep, which need not be that of work",
  },
  uncertainty: {
    code: "uncertainty",
    care: 1.5,
    blind: 3,
    unit: "dB",
    side: "above",
    rangeHz: ALL_HZ,
    label: "choice",
    source:
      "expanded uncertainty (k = 2) of the level, held against what is heard of a wide deviation; a choice of ours",
  },
  onePlace: {
    code: "one-place",
    care: 3,
    blind: null,
    unit: "places",
    side: "below",
    rangeHz: [2500, 16_000],
    label: "choice",
    source: "above 2 kHz centimetres decide: three places within a head's reach are needed; a choice of ours",
  },
} as const satisfies Readonly<Record<string, GradeLimit>>;

/** Above this one microphone place says nothing final of the tone. */
export const ONE_PLACE_HZ = 2000;
/** So many places make a mean that does. */
export const ENOUGH_PLACES = LIMITS.onePlace.care;
/** How far a note stands out of the long-term level of its third octave, dB: a choice of ours. */
export const NOTE_CREST_DB = 10;
/** One parameter of the model, as the results state it. */
export interface Parameter {
  readonly value: number;
  readonly label: Label;
  readonly source: string;
}

export const DRIFT = {
  /** Share of the colour that is left when the ear has adapted. */
  unadapted: {
    value: 0.8,
    label: "literature",
    source:
      "about 20 % of a loudspeaker's or room's colour is adapted away, Pike, Mason and Brookes, Surrey (abstract)",
  },
  referenceUse: {
    value: 0.25,
    label: "choice",
    source: "how far references on the same monitors cancel the correction; a choice of ours",
  },
  /** With the default use of references: the two above, 0.8 (1 - 0.25). */
  compensation: {
    value: 0.6,
    label: "choice",
    source: "0.8 (1 - 0.25): what is not adapted away, less what references cancel; a choice of ours",
  },
  compensationFrom: {
    value: 0.3,
    label: "choice",
    source: "nobody has published how much of a monitor's colour ends up inverted in a mix; a choice of ours",
  },
  compensationTo: {
    value: 0.8,
    label: "choice",
    source: "nothing but adaptation keeps the engineer from the full inverse; a choice of ours",
  },
  dipWeight: { value: 0.5, label: "choice", source: "dips are less heard than peaks; the half is a choice of ours" },
  limitDb: {
    value: 6,
    label: "choice",
    source: "more would sound wrong against any memory of music; a choice of ours",
  },
  /** Below this a drift is small and not worth a sentence, dB. */
  clearDb: { value: 1.5, label: "literature", source: "least wide deviation heard with music, Toole and Olive 1988" },
  strongDb: { value: 4, label: "choice", source: "a choice of ours" },
  listeningLevelDb: {
    value: 79,
    label: "choice",
    source: "dB C; practice in control rooms of 140 to 280 m3 is 78; a choice of ours",
  },
} as const satisfies Readonly<Record<string, Parameter>>;

/** Width over which deviations enter a mix, octaves, up to a frequency: nothing narrower can be put into one. A choice of ours. */
export const SMOOTHING = [
  { belowHz: 100, octaves: 1 / 2 },
  { belowHz: 301, octaves: 2 / 3 },
  { belowHz: Infinity, octaves: 1 },
] as const;
