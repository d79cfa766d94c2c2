import { straightOverLog } from "../../dsp/straight-over-log.js";

/** A poor, an ordinary and a good member of a class; what it reproduces lies between the first and the last. */
export type ClassMember = "low" | "typical" | "high";

/** A range of responses of a kind of consumer system. */
export interface PlaybackClass {
  readonly id: string;
  readonly name: string;
  /** What a mix loses on it, in words; null where nobody said so. */
  readonly loses: string | null;
  /** Left and right are summed, or sound as if they were. */
  readonly mono: boolean;
  /** How the curves are known. */
  readonly label: "literature" | "choice" | "stated in the session";
  readonly source: string;
  /** A-weighted level of music and of the noise around it, dB; null where not stated. */
  readonly levelDba: { readonly typical: number | null; readonly noise: number | null; readonly source: string };
  /** Rising in frequency; dB re anything, the three on one scale. */
  readonly envelope: readonly (readonly [frequencyHz: number, lowDb: number, typicalDb: number, highDb: number])[];
}

/** One that is built in. No device was measured for it; its envelope is re the mean of the typical curve over 500 Hz-4 kHz. */
export interface DocumentedClass extends PlaybackClass {
  readonly levelDba: {
    readonly low: number;
    readonly typical: number;
    readonly high: number;
    readonly noise: number;
    readonly source: string;
  };
}

const COLUMN = { low: 1, typical: 2, high: 3 } as const;

/**
 * Level that a member of a class gives, straight over log frequency between the rows of its envelope.
 *
 * @param frequencyHz - Hz; bands by their nominal frequency
 * @returns dB on the envelope's own scale; null outside the envelope
 * @example classLevelDb(car, 40, "typical") // 8.5
 */
export function classLevelDb({ envelope }: PlaybackClass, frequencyHz: number, member: ClassMember): number | null {
  const upper = envelope.findIndex(([hz]) => hz >= frequencyHz);
  const to = envelope[upper];
  if (!to) return null;
  const column = COLUMN[member];
  if (to[0] === frequencyHz) return to[column];
  const from = envelope[upper - 1];
  return from ? straightOverLog(frequencyHz, from[0], to[0], from[column], to[column]) : null;
}
