import { capital, fixed, listed, withUncertainty } from "../../words/numbers.js";
import { type Decibels, decibels } from "../phrases/decibels.js";
import { type Range, range, worstAt } from "../phrases/ranges.js";
import type { Wordings } from "../wording.js";

type Inverted =
  | { readonly is: "sides"; readonly monitor: string }
  | { readonly is: "monitors"; readonly monitors: readonly string[]; readonly others: readonly string[] }
  | { readonly is: "absolute"; readonly monitor: string };

/** Left against right, and which way a loudspeaker pushes. */
export const leftRightWords = {
  "polarity-inverted": (f: Inverted) => {
    if (f.is === "sides") {
      return {
        message: `The two sides of ${f.monitor} have opposite polarity: the centre falls apart and the bass cancels.`,
        remedy:
          "swap plus and minus at one loudspeaker, or undo the polarity switch in the signal path, then measure again",
      };
    }
    if (f.is === "monitors") {
      return {
        message:
          f.others.length > 0
            ? `${capital(listed(f.monitors))} ${f.monitors.length > 1 ? "push" : "pushes"} the other way than ${listed(f.others)}: its polarity is inverted.`
            : `${capital(listed(f.monitors))} push opposite ways: the polarity of one of them is inverted.`,
        remedy: "look for a polarity switch or a cable with plus and minus swapped on the way to that monitor",
      };
    }
    return {
      message: `What was recorded of ${f.monitor} has the opposite polarity of the electrical signal: its loudspeakers or the microphone invert.`,
      remedy: null,
    };
  },
  "left-right-level": (f: Decibels & { monitor: string }) => ({
    message: `The ${f.valueDb > 0 ? "left" : "right"} side of ${f.monitor} is ${decibels(f)} louder than the other: the centre sits off the middle.`,
    remedy: "trim the louder side until both read the same, then measure again",
  }),
  "left-right-arrival": (f: { monitor: string; differenceS: number; uncertaintyS: number }) => ({
    message: `The ${f.differenceS > 0 ? "left" : "right"} side of ${f.monitor} arrives ${withUncertainty(1e6 * Math.abs(f.differenceS), 0.5e6 * f.uncertaintyS, 0)} µs later: the centre leans to the other side.`,
    remedy: `move the microphone or the chair to the middle first; if it stays, bring that side ${fixed(343 * 100 * Math.abs(f.differenceS), 0)} cm nearer or delay the other`,
  }),
  "left-right-bands": (f: Decibels & { monitor: string; rangeHz: Range; bandHz: number; beyond: boolean }) => ({
    message: `The ${f.valueDb > 0 ? "right" : "left"} side of ${f.monitor} is weaker ${range(f.rangeHz)}, by ${decibels(f)}${worstAt(f.rangeHz, f.bandHz)}${f.beyond ? ", beyond its difference in level as a whole" : ""}.`,
    remedy:
      f.bandHz < 250
        ? "compare what stands near each side (corner, door, window, furniture) and the settings of both boxes; swap the boxes to learn whether the fault moves with them"
        : "check both drivers and crossover settings; swap the boxes to learn whether the fault moves with them",
  }),
  "phantom-dip": (f: Decibels & { monitor: string; rangeHz: Range; bandHz: number }) => ({
    message: `The phantom centre of ${f.monitor} loses ${decibels(f)} ${range(f.rangeHz)} against either side: kick, bass and voice sit there.`,
    remedy:
      "left and right arrive out of step in this range: check distances, crossovers and the seat's place between the side walls",
  }),
} satisfies Wordings;
