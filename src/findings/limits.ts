/** What a finding is held against: the limit, and where it comes from. */
export interface Limit {
  readonly value: number;
  readonly source: string;
}

/** Low end: below this a kick drum and a bass have their weight. */
export const LOW_END: Limit = {
  value: 50,
  source: "edge of the third octave that holds a kick's fundamental; a choice of ours",
};
/** One monitor reaches lower than another when it does so by a third octave. */
export const DEEPER_BY_OCTAVES: Limit = { value: 1 / 3, source: "one third octave; a choice of ours" };

/** A trouble so many times what is heard leaves nothing to be believed: a choice of ours. */
export const GRAVE: Limit = { value: 3, source: "three times what is heard; a choice of ours" };

/** Left against right, third octaves. */
export const LEFT_RIGHT_BAND = {
  middle: {
    value: 2,
    rangeHz: [250, 2000],
    source: "ITU-R BS.1116-3 and EBU Tech 3276, 250 Hz-2 kHz, from memory",
  },
  outside: { value: 3, rangeHz: [31.5, 10_000], source: "3 dB outside 250 Hz-2 kHz; a choice of ours" },
} as const;
export const LEFT_RIGHT_LEVEL: Limit = {
  value: 0.75,
  source:
    "just noticeable difference of level between the ears 0.5-1 dB, Breebaart and Faller, Spatial Audio Processing, 3.5.1",
};
export const LEFT_RIGHT_ARRIVAL: Limit = {
  value: 100e-6,
  source: "ITU-R BS.1116-3, delay between channels, from memory",
};

/** Early reflections: level re the direct sound, 1-8 kHz, up to this delay. */
export const EARLY_REFLECTION: Limit & { readonly untilS: number } = {
  value: -10,
  untilS: 0.015,
  source: "ITU-R BS.1116-3 and EBU Tech 3276: 10 dB under the direct sound up to 15 ms, 1-8 kHz, from memory",
};
/** Levels at which a reflection begins to colour: -16 to -22 dB with speech, -18 dB with a snare. */
export const REFLECTION_HEARD: Limit = { value: -20, source: "Brunner 2007, restated" };
/** What only one side has draws the image to that side before it breaks the limit for both. */
export const ONE_SIDED_REFLECTION: Limit = {
  value: -12,
  source: "2 dB under the limit for both sides; a choice of ours",
};

/** A dip is heard as half its depth says. */
export const DIP_FACTOR: Limit = {
  value: 2,
  source: "Buecklein 1962: dips are less heard than peaks; the factor is a choice of ours",
};
/** A dip of so many third octaves is wide enough to be heard as colour whatever its depth beyond the limit. */
export const WIDE_DIP_BANDS = 3;

/** Decay of single third octaves is judged from here up to there. */
export const DECAY_RANGE_HZ = [31.5, 4000] as const;

/** Standard deviation over places within a head's reach. */
export const PLACE_SPREAD: Limit = {
  value: 3,
  source: "twice what a simulation of 60 rooms gives in its worst tenth within 10 cm, 1.6 dB; a choice of ours",
};
/** The volume whose recommended time is taken for the most where none is stated: a large control room. */
export const ASSUMED_VOLUME_M3 = 200;

export const PLACE_SPREAD_RANGE_HZ = [40, 1000] as const;

export const PHANTOM_LOSS: Limit = { value: 3, source: "half the power of two sides in step; a choice of ours" };

export const DISTORTION = {
  low: { value: 3, belowHz: 250, source: "ITU-R BS.1116-3, -30 dB below 250 Hz at 90 dB SPL, from memory" },
  high: { value: 1, belowHz: 16_000, source: "ITU-R BS.1116-3, -40 dB from 250 Hz up at 90 dB SPL, from memory" },
} as const;

/** Above this one microphone place says nothing final of the tone. */
export const ONE_PLACE_HZ = 2000;
/** So many places make a mean that does. */
export const ENOUGH_PLACES = 3;

/** Recordings. A constant in them, percent of full scale. */
export const DC_OFFSET: Limit = {
  value: 1,
  source: "common converters add less than 0.1 %, common practice, no source; the factor of ten is a choice of ours",
};
/** All bands alike louder or softer under the sweeps than in silence. */
export const MOVING_GAIN: Limit = {
  value: 1.5,
  source: "twice the most that chance left in 40 recordings of clean studios, 0.72 dB; a choice of ours",
};
/** The response to a short marker against that to the sweep, mean over third octaves that tell alike. */
export const MARKER_AGREEMENT: Limit = {
  value: 0.25,
  source: "twenty-five times what chance leaves in clean studios, 0.01 dB; a choice of ours",
};
/** What one marker holds that the other, or the response to the sweep, cannot explain, re its energy. */
export const MARKERS_UNLIKE: Limit = {
  value: -5,
  source:
    "a person a quarter of a metre from the microphone for one of them alone: -5.6 dB (share of 0.62 of the sound, computed); clean studios: -43 dB; a choice of ours",
};
/** How far a marker is from where its distance to the sweep puts it, when the clock that both markers tell is allowed for, ms. */
export const MARKER_PLACE: Limit = {
  value: 0.05,
  source:
    "1.7 cm of air, or a clock that wanders by 6 ppm for 8 s; clean studios: under 0.0001 ms; 64 samples lost between two sweeps of 2.4 s or 10 s: 0.4 ms; a choice of ours",
};
/** Loud moments of a silence over its usual level, at the same frequency. */
export const NOISE_WITH_HOLES: Limit = {
  value: 7,
  source: "steady noise: 5.2 dB (10 lg(ln 10 / ln 2)), clean studios 5.1 to 5.3 dB; a choice of ours",
};
/** An octave of noise louder under or after a sweep than before it. */
export const NOISE_RISE: Limit = {
  value: 6,
  source: "three times what chance leaves in clean studios, 2 dB; a choice of ours",
};
/** Lines of the mains re the recorded sweep, mean square to mean square. */
export const HUM: Limit = {
  value: -45,
  source: "where a third octave at 50 Hz begins to be off; a choice of ours, measured in the fault laboratory",
};
/** The recorded sweep over the room's noise; under this the sweep hardly stands out of it. */
export const LOW_SIGNAL: Limit = { value: 20, source: "a choice of ours" };
/** Decay range in so many octaves from 125 Hz to 4 kHz. */
export const LOW_DECAY_RANGE: Limit & { readonly octaves: number } = {
  value: 35,
  octaves: 2,
  source: "ISO 3382-2:2008: T20 needs 35 dB; two octaves are a choice of ours",
};

/** A dip that a near surface may have made, re the heights beside it. */
export const BOUNDARY_DIP: Limit = { value: 6, source: "6 dB under the heights beside it; a choice of ours" };
