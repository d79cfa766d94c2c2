import { fixed, hertz, listed, significant } from "../../../words/numbers.js";
import { clock, seconds } from "../../phrases/durations.js";
import { sideOf } from "../../phrases/sides.js";
import type { Wordings } from "../../wording.js";

/** A sweep as it is heard. */
export interface RoughSweep {
  readonly fromHz: number;
  readonly toHz: number;
  readonly lengthS: number;
}

/** What was found in place of the session's sweep. */
type WrongSweep =
  | { readonly is: "another"; readonly fits: string; readonly named: string }
  | { readonly is: "none"; readonly heard: RoughSweep; readonly own: RoughSweep }
  | { readonly is: "spaced"; readonly heardS: number; readonly ownS: number }
  | { readonly is: "several"; readonly count: number; readonly wanted: number }
  | { readonly is: "single" };

const OTHER_SWEEP =
  'play the session\'s own reel and record again; or name what was played as "sweep" of this recording in session.json';

/** More is not lost at once, s. */
const MOST_LOST_S = 0.6;

/** What was recorded between two sweeps is silence: nothing in it tells whether some of it is missing. */
function spaced(heardS: number, ownS: number): string {
  const apart = `The sweeps are ${fixed(heardS, 2)} s apart, those of the session's reel ${fixed(ownS, 2)} s: another reel was played`;
  const offMs = 1000 * (heardS - ownS);
  if (Math.abs(offMs) > 1000 * MOST_LOST_S) return `${apart}.`;
  return `${apart}, or between them about ${significant(Math.abs(offMs), 2)} ms ${offMs < 0 ? "were lost" : "came twice"}.`;
}

/** Whether what was played is the session's own, once. */
export const whichSweepWords = {
  "no-sweep": (f: { channel: string | null }) =>
    f.channel === null
      ? {
          message: "The session's sweep is not in the recording.",
          remedy:
            "check that this file is the right one and that it was recorded with the sweep that session.json names",
        }
      : {
          message: `The ${sideOf(f.channel)} sweep of the reel is not in the recording.`,
          remedy: `check that the ${sideOf(f.channel)} loudspeaker played and that the recording runs to the end of the reel`,
        },
  "wrong-sweep": (f: WrongSweep) => {
    if (f.is === "several") {
      const message = `The recording holds ${f.count} sweeps where ${f.wanted === 1 ? "one" : f.wanted} should be: which is which cannot be told.`;
      if (f.wanted > 1) return { message, remedy: OTHER_SWEEP };
      return {
        message,
        remedy:
          'if it is a reel, remove "channel" from this recording in session.json; if not, cut it into one file a sweep',
      };
    }
    if (f.is === "single") {
      return {
        message: "The recording holds one sweep between two markers: the file for one loudspeaker, not the reel.",
        remedy: 'name the loudspeaker that played it, "channel": "L" or "R", with this recording in session.json',
      };
    }
    if (f.is === "spaced") {
      return { message: spaced(f.heardS, f.ownS), remedy: OTHER_SWEEP };
    }
    if (f.is === "another") {
      return {
        message: `The recording holds the sweep of ${f.fits}, not that of ${f.named}.`,
        remedy: `add "sweep": "${f.fits}" to this recording in session.json`,
      };
    }
    const rough = ({ fromHz, toHz, lengthS }: RoughSweep): string =>
      `from about ${hertz(Number(significant(fromHz, 2)))} to ${hertz(Number(significant(toHz, 2)))} in ${seconds(lengthS)}`;
    return {
      message: `Another sweep than the session's was played, ${rough(f.heard)}; the session's goes ${rough(f.own)}.`,
      remedy: OTHER_SWEEP,
    };
  },
  "more-sweeps": (f: { count: number }) => ({
    message: `The recording holds ${f.count} more ${f.count === 1 ? "sweep" : "sweeps"} than the reel: one pass of the reel was measured.`,
    remedy: "to have the other pass measured too, cut it out as a second take",
  }),
  "several-reels": (f: { heardAtS: readonly number[] }) => ({
    message: `What was played is in the recording ${f.heardAtS.length} times, at ${listed(f.heardAtS.slice(0, 6).map(clock))}${f.heardAtS.length > 6 ? " and later" : ""}; only the first was used.`,
    remedy: "cut the recording into one file for each, and list every file with its monitor, position and take",
  }),
  "which-loudspeaker": () => ({
    message: "One sweep of the reel is missing, and nothing tells which loudspeaker the other came from.",
    remedy:
      "check that both loudspeakers play and record the whole reel, with both of its markers; or record them one by one",
  }),
} satisfies Wordings;
