import { fixed, hertz } from "../../words/numbers.js";
import type { Wordings } from "../wording.js";

/** What the room sounds like when nothing plays. */
export const noiseWords = {
  "background-noise": (f: { ratingNr: number; limitNr: number; bandHz: number }) => ({
    message: `Noise in the silence before the sweeps reaches NR ${fixed(f.ratingNr, 0)}, most at ${hertz(f.bandHz)}, the microphone's own included; NR ${fixed(f.limitNr, 0)} should not be exceeded.`,
    remedy: "look for fans, drives, lamps and ventilation; quiet details hide under it",
  }),
} satisfies Wordings;
