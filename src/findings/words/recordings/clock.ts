import { fixed, significant } from "../../../words/numbers.js";
import type { Wordings } from "../../wording.js";

/** Sample rates and clocks. */
export const clockWords = {
  "sample-rate": (f: { foundHz: number; expectedHz: number }) => ({
    message: `The recording is sampled at ${f.foundHz} Hz, but the sweep at ${f.expectedHz} Hz.`,
    remedy: `record at ${f.expectedHz} Hz, or name the sweep made for ${f.foundHz} Hz in session.json`,
  }),
  "rate-mismatch": (f: { ratio: number; usual: string | null } | { saysHz: number; isHz: number }) => {
    if ("saysHz" in f) {
      return {
        message: `The file says that it is sampled at ${f.saysHz} Hz, but its sound was sampled at ${f.isHz} Hz.`,
        remedy: `have the file say ${f.isHz} Hz, without converting its sound; or export it again at ${f.isHz} Hz`,
      };
    }
    const percent = `${Number(significant(100 * Math.abs(f.ratio - 1), 2))} %`;
    return {
      message: `The recording lasts ${percent} ${f.ratio > 1 ? "longer" : "shorter"} than what was played: a wrong sample rate, not drift${f.usual === null ? "" : ` (as ${f.usual})`}.`,
      remedy: "set player, recorder and workstation to the same sample rate, and record again",
    };
  },
  "clock-unknown": () => ({
    message:
      "The two markers were not both heard: clock drift, the arrival of left against right, and whether something followed the level (a compressor, automatic gain) are not known.",
    remedy: "record the reel from before its first marker until after its second",
  }),
  "clock-drift": (f: { id: string; ppm: number; uncertaintyPpm: number }) => ({
    message: `The recorder's clock ran ${f.ppm > 0 ? "fast" : "slow"} by ${fixed(Math.abs(f.ppm), 1)} ppm (uncertainty ${significant(Math.max(0.1, 2 * f.uncertaintyPpm), 1)} ppm) in ${f.id}; corrected.`,
    remedy: null,
  }),
} satisfies Wordings;
