import type { LikelyModes } from "../../words/mode-name.js";
import { fixed, hertz, listed, withUncertainty } from "../../words/numbers.js";
import { seconds } from "../phrases/durations.js";
import { type Range, range, worstAt } from "../phrases/ranges.js";
import type { Wordings } from "../wording.js";

/** How long the room sounds on. */
export const decayWords = {
  dry: (f: { timeS: number; limitS: number }) => ({
    message: `The room is dry: ${seconds(f.timeS)} at this position, where ${seconds(f.limitS)} would be the shortest recommended. Dry is not dull: the tail is short, the treble is not missing.`,
    remedy: null,
  }),
  "too-live": (f: { timeS: number; uncertaintyS: number; limitS: number; volumeM3: number | null }) => ({
    message: `The room is live: ${withUncertainty(f.timeS, f.uncertaintyS / 2, 2)} s on the mean of 200 Hz to 4 kHz, where ${seconds(f.limitS)} is the most recommended for ${f.volumeM3 === null ? "a large control room (this one's size is not stated)" : `${fixed(f.volumeM3, 0)} m³`}.`,
    remedy: "more absorbing surface, spread over walls and ceiling; reverb is set too dry in a room that adds its own",
  }),
  rings: (f: {
    /** Null: every monitor that reaches there shows it. */
    only: readonly string[] | null;
    rangeHz: Range;
    bandHz: number;
    timeS: number;
    uncertaintyS: number;
    limitS: number;
    sizeIsAssumed: boolean;
  }) => ({
    message: `${f.only === null ? "The room rings" : `With ${listed(f.only)} the room rings`} ${range(f.rangeHz)}: ${withUncertainty(f.timeS, f.uncertaintyS / 2, 2)} s${worstAt(f.rangeHz, f.bandHz)} to fall by 60 dB, where ${seconds(f.limitS)} is the limit${f.sizeIsAssumed ? " for a large control room (this one's size is not stated)" : ""}.`,
    remedy:
      f.bandHz < 300
        ? "notes there last longer than they were played: deep or tuned bass absorbers help, best in corners; trust headphones for the length of bass notes meanwhile"
        : "look for bare parallel surfaces that face each other, and cover or turn one of them",
  }),
  "mode-rings": (f: {
    /** Null: it stands out with every monitor that reaches there. */
    only: readonly string[] | null;
    frequencyHz: number;
    /** Of more modes close by. */
    alsoHz: readonly number[];
    timeS: number;
    uncertaintyS: number;
    limitS: number;
    raisedDb: number;
    /** What the dimensions predict there. */
    likely: LikelyModes | null;
  }) => ({
    message: `${f.only === null ? "The room rings" : `With ${listed(f.only)} the room rings`} at ${hertz(f.frequencyHz)}${f.alsoHz.length > 0 ? ` and ${listed(f.alsoHz.map(hertz))}` : ""}: ${withUncertainty(f.timeS, f.uncertaintyS / 2, 2)} s${f.alsoHz.length > 0 ? ` at ${hertz(f.frequencyHz)}` : ""} to fall by 60 dB, where up to ${seconds(f.limitS)} stays unheard, and it raises the response there by ${fixed(f.raisedDb, 0)} dB.${f.likely === null ? "" : ` By the room's dimensions it is ${f.likely.text}${f.likely.isOne ? "" : ": they lie too near to each other to be told apart by frequency"}.`}`,
    remedy: `notes there last longer than they were played: deep or tuned bass absorbers help, best ${f.likely?.between == null ? "in corners" : `at the ends of its way, ${f.likely.between}`}; an equaliser lowers it and does not shorten it; trust headphones for the length of bass notes meanwhile`,
  }),
} satisfies Wordings;
