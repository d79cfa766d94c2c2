import { fixed, hertz } from "../../words/numbers.js";
import { sides } from "../phrases/sides.js";
import type { Wordings } from "../wording.js";

/** What a loudspeaker adds to what it plays. */
export const distortionWords = {
  distortion: (f: {
    monitor: string;
    channels: readonly string[];
    percent: number;
    frequencyHz: number;
    limitPercent: number;
  }) => ({
    message: `Distortion of ${f.monitor} (${sides(f.channels)}) reaches ${fixed(f.percent, 1)} % at ${hertz(f.frequencyHz)} at the level played; ${fixed(f.limitPercent, 0)} % is the limit at 90 dB SPL.`,
    remedy: "measure again 6 dB lower; if it stays, something rattles or a driver is worn",
  }),
} satisfies Wordings;
