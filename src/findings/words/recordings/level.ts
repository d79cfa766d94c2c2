import { fixed } from "../../../words/numbers.js";
import type { Wordings } from "../../wording.js";

/** Nothing recorded, too much, or off the middle. */
export const levelWords = {
  silent: () => ({
    message: "The recording is silent.",
    remedy: "check the microphone, its gain and the input that was recorded",
  }),
  clipped: (f: { readonly count: number } | { readonly crests: number; readonly levelDbfs: number }) => ({
    message:
      "count" in f
        ? `The recording is clipped: ${f.count} samples at its ceiling.`
        : `The recording was clipped or limited at its input: ${f.crests} crests of the sweep, at separate frequencies, all end at ${fixed(f.levelDbfs, 1)} dB re full scale. Something has rounded the edges since, a filter or a change of sample rate.`,
    remedy: "lower the microphone's gain so that peaks stay near -6 dBFS, and record again",
  }),
  "dc-offset": (f: { percent: number }) => ({
    message: `The recording is not centred on zero: a constant of ${fixed(f.percent, 1)} % of full scale runs through it. It was taken out.`,
    remedy: "look for a fault in cable, preamp or input, or switch on the preamp's low cut at 20 Hz or below",
  }),
} satisfies Wordings;
