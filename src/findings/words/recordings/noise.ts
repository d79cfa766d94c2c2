import { fixed, hertz } from "../../../words/numbers.js";
import type { Wordings } from "../../wording.js";

/** The noise that uncertainties are made of. */
export const recordedNoiseWords = {
  "noise-changed": (f: { bandHz: number; byDb: number; atS: number }) => ({
    message: `The noise rose after the silence before the sweep: by ${fixed(f.byDb, 0)} dB near ${hertz(f.bandHz)} from ${fixed(f.atS, 1)} s on. Uncertainties count the louder noise.`,
    remedy: "switch off the ventilation or wait until it is quiet, and record again",
  }),
  "no-silence": () => ({
    message:
      "There is no silence before the first sound, nor at the end: the room's noise, and so the uncertainty, is not known.",
    remedy: "start the recorder a second or more before the reel",
  }),
  "noise-unknown": () => ({
    message:
      "An impulse response says nothing of the noise it was recorded in: the uncertainty of levels is not known.",
    remedy: "record the sweep itself",
  }),
} satisfies Wordings;
