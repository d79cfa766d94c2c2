/** Just noticeable differences, each with where it comes from; a figure lent from another quantity says so. */

export interface JustNoticeable {
  /** In the unit of the quantity, or as a share of its value. */
  readonly value: number;
  /** `share`: of the mean of the two values that are compared. */
  readonly unit: "dB" | "s" | "share" | "octaves";
  /** Published for another quantity. */
  readonly lent: boolean;
  readonly source: string;
}

const ISO = "ISO 3382-1:2009, Table A.1 (read in a transcription)";
const EDT_NOTE = "a later study found about 18 % for EDT";
const LEVEL = "least wide deviation heard with popular music, Toole and Olive 1988 as restated (Q 1)";

export const JUST_NOTICEABLE = {
  /** A third octave of a response. */
  bandLevel: { value: 1.5, unit: "dB", lent: true, source: `${LEVEL}; lent to a difference of two measurements` },
  /** 200 Hz to 4 kHz. */
  overallLevel: { value: 1, unit: "dB", lent: true, source: `${ISO}: strength G, lent to the level at the microphone` },
  earlyDecay: { value: 0.05, unit: "share", lent: false, source: `${ISO}: EDT, 5 %; ${EDT_NOTE}` },
  decay: { value: 0.05, unit: "share", lent: true, source: `${ISO}: EDT's 5 %, lent; ${EDT_NOTE}` },
  clarity80: { value: 1, unit: "dB", lent: false, source: `${ISO}: C80` },
  clarity50: { value: 1, unit: "dB", lent: true, source: `${ISO}: C80's, lent` },
  reflection: { value: 2, unit: "dB", lent: false, source: "no published figure known; a choice of ours" },
  sideLevel: {
    value: 0.75,
    unit: "dB",
    lent: false,
    source: "interaural level, 0.5 to 1 dB, Breebaart and Faller, Spatial Audio Processing, 3.5.1",
  },
  sideArrival: { value: 20e-6, unit: "s", lent: false, source: "interaural time, 10 to 20 µs; from memory" },
  extension: { value: 1 / 6, unit: "octaves", lent: false, source: "half a third octave; a choice of ours" },
  flutter: { value: 2, unit: "dB", lent: false, source: "no published figure known; a choice of ours" },
  /** Of a resonance of quality 1; it falls with the root of the quality. */
  modeFrequency: {
    value: 0.079,
    unit: "share",
    lent: false,
    source:
      "a resonance moved by 0.079 f / sqrt(Q), 0.3 to 2 kHz, Q 1 to 36 (abstract of a paper in J. Acoust. Soc. Am.)",
  },
  noise: { value: 1, unit: "dB", lent: true, source: `${ISO}: strength G, lent to noise` },
} as const satisfies Readonly<Record<string, JustNoticeable>>;

/**
 * A just noticeable difference in the unit of the two values that are compared.
 *
 * @param before - above 0 where the figure is in octaves
 * @param after - likewise
 * @returns 0 or more
 * @example amount(JUST_NOTICEABLE.decay, 0.4, 0.6) // 0.025 s
 */
export function amount({ value, unit }: JustNoticeable, before: number, after: number): number {
  if (unit === "share") return (value * (Math.abs(before) + Math.abs(after))) / 2;
  // Hertz over so many octaves, in the middle of the two.
  if (unit === "octaves") return Math.sqrt(before * after) * (2 ** (value / 2) - 2 ** (-value / 2));
  return value;
}
