import { capital, fixed, listed } from "../../words/numbers.js";
import { type Decibels, decibels } from "../phrases/decibels.js";
import { type Range, range, worstAt } from "../phrases/ranges.js";
import type { Wordings } from "../wording.js";

/** What the data cannot say, and what to record or to state so that they can. */
export const unknownWords = {
  "few-places": (f: { monitors: readonly string[]; places: number }) => ({
    message: `${f.places === 1 ? "One microphone place was" : `${f.places} microphone places were`} measured with ${listed(f.monitors)}: above 2 kHz a few centimetres change the curve, so no verdict on tone is given there.`,
    remedy: "measure the mix position and four more places within 20 cm of it, at ear height",
  }),
  "not-calibrated": () => ({
    message:
      "No calibrator was recorded: no figure here is a sound pressure level, and the room's noise cannot be rated.",
    remedy: "record a sound calibrator with the gain left as it is, and name it in session.json as microphone.level",
  }),
  "no-volume": () => ({
    message:
      "The room's size is not stated: its reverberation cannot be held against what is recommended for its volume.",
    remedy: "add lengthM, widthM and heightM, or volumeM3, to room in session.json",
  }),
  "gain-unknown": (f: { what: string }) => ({
    message: `The input gain is not stated to have stayed fixed: the difference in level ${f.what} may be gain. Shapes are not touched by this.`,
    remedy: 'leave the gain alone between recordings and add "gainFixed": true to microphone in session.json',
  }),
  "one-channel": (f: { monitor: string }) => ({
    message: `Only one side of ${f.monitor} was measured: left cannot be held against right.`,
    remedy: "record the reel, or the sweep of the other side, as well",
  }),
  "one-monitor": (f: { monitor: string }) => ({
    message: `Only ${f.monitor} was measured: what it hides, another monitor would have to show.`,
    remedy: "measure a second pair at the same place",
  }),
  "target-unknown": (f: { monitor: string; outsideTarget: boolean }) => ({
    message: `${f.outsideTarget ? "The target of" : "What was measured of"} ${f.monitor} does not cover 200 Hz to 4 kHz, where the two are laid on each other: tone was not judged.`,
    remedy: f.outsideTarget
      ? "give the target's file rows from 200 Hz or below to 4 kHz or above"
      : "measure with a sweep that covers this range",
  }),
  "cannot-tell": (f: Decibels & { what: string; rangeHz: Range; bandHz: number; limitDb: number }) => ({
    message: `${capital(f.what)} ${range(f.rangeHz)} reads ${decibels(f)}${worstAt(f.rangeHz, f.bandHz)}, where ${fixed(f.limitDb, 1)} dB is the limit: ${f.uncertaintyDb === null ? "its uncertainty is not known" : "it lies over that by less than its uncertainty"}, so it may or may not be a fault.`,
    remedy: "record the sweep itself, two takes or more, louder if ears and loudspeakers stand it",
  }),
} satisfies Wordings;
