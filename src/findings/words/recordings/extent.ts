import { clock, seconds } from "../../phrases/durations.js";
import { sideOf, sweepOf } from "../../phrases/sides.js";
import type { Wordings } from "../../wording.js";

/** From when until when was recorded. */
export const extentWords = {
  "started-late": (f: { channel: string | null; missingS: number }) => ({
    message: `The recording starts ${seconds(f.missingS)} after the ${sweepOf(f.channel)} has begun.`,
    remedy: "start the recorder first, then the sweep",
  }),
  "ended-early": (f: { channel: string | null; missingS: number }) => ({
    message:
      f.missingS > 0
        ? `The recording ends ${seconds(f.missingS)} before the ${sweepOf(f.channel)} does.`
        : `The recording ends only ${seconds(Math.abs(f.missingS))} after the ${sweepOf(f.channel)}: low frequencies and decays are cut off.`,
    remedy: "let the recorder run until the second marker has sounded",
  }),
  "short-tail": (f: { channel: string; tailS: number }) => ({
    message: `Only ${seconds(Math.max(0, f.tailS))} were recorded after the ${sideOf(f.channel)} sweep: low frequencies and decays are cut off.`,
    remedy: "make the sweep with a longer gap",
  }),
  "length-from-file": (f: { durationS: number }) => ({
    message: `The file's header does not say how long the recording is (its recorder stopped before it could write that): ${seconds(f.durationS)} were read, as far as the file goes.`,
    remedy: null,
  }),
  "long-recording": (f: { durationS: number; heardAtS: number }) => ({
    message: `The recording lasts ${clock(f.durationS)}; what was played begins at ${clock(f.heardAtS)}, and only what is around it was used.`,
    remedy: null,
  }),
} satisfies Wordings;
