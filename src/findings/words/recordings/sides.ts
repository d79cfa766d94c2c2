import { fixed } from "../../../words/numbers.js";
import type { Wordings } from "../../wording.js";

/** Which loudspeaker was recorded. */
export const recordedSideWords = {
  "both-speakers": (f: { monitor: string; differenceDb: number; isOneBox: boolean }) => ({
    message: `Left and right of ${f.monitor} are the same sound to ${fixed(f.differenceDb, 0)} dB, closer than two places in a room can be: ${f.isOneBox ? "one loudspeaker plays both channels, or both play at once." : "both loudspeakers played at once, one played twice, or this is an electrical measurement."}`,
    remedy: f.isOneBox
      ? null
      : "switch off mono and anything that sends one channel to both sides, and record the reel again",
  }),
  "channels-swapped": (f: { monitor: string }) => ({
    message: `Left and right of ${f.monitor} are swapped: the side that is nearer by its stated place arrives later, by as much as it should arrive earlier.`,
    remedy:
      "check which loudspeaker plays the left channel; if that is right, the places of L and R, or of the microphone, are exchanged in session.json",
  }),
} satisfies Wordings;
