import { fixed, hertz, listed } from "../../../words/numbers.js";
import type { Wordings } from "../../wording.js";

/** What the response itself tells of how it was recorded. */
export const measuredWords = {
  "low-signal": (f: { id: string; signalToNoiseDb: number | null; weakHz: readonly number[] }) => {
    const above = f.signalToNoiseDb === null ? "" : ` (it is ${fixed(f.signalToNoiseDb, 0)} dB above it)`;
    const weak =
      f.weakHz.length === 0
        ? ""
        : `: at ${listed(f.weakHz.map((hz) => hertz(hz)))} the decay can be followed over less than the 35 dB that T20 needs`;
    return {
      message: `The sweep of ${f.id} hardly stands out of the room's noise${above}${weak}.`,
      remedy: "play louder, within what ears and loudspeakers stand, use a longer sweep, or make the room quieter",
    };
  },
  distorted: (f: { id: string; percent: number; frequencyHz: number; isClipped: boolean; hidesDecays: boolean }) => ({
    message: `${f.id} was driven too hard: its harmonics reach ${fixed(f.percent, f.percent < 10 ? 1 : 0)} % at ${hertz(Math.round(f.frequencyHz))}${f.isClipped ? ", and the high ones are as strong as the low, as where something clips (a limiter, an amplifier, the microphone's input)" : ""}. The levels are squeezed with it and not to be trusted${f.hidesDecays ? "; decays cannot be told from the harmonics and are not stated" : ""}.`,
    remedy: "turn the loudspeaker down 6 dB and record again; if it stays, turn down the microphone's gain as well",
  }),
  "band-limited": (f: { id: string; hz: number; dropDb: number; isCliff: boolean }) =>
    f.isCliff
      ? {
          message: `The response of ${f.id} breaks off at ${hertz(f.hz)}: ${fixed(f.dropDb, 0)} dB within a quarter of an octave, as no loudspeaker does. Nothing is stated above.`,
          remedy:
            "play and record by cable, without a wireless link, and at the sweep's own sample rate; look for a filter in device or workstation",
        }
      : {
          message: `The treble of ${f.id} is missing: from about ${hertz(f.hz)} up, ${fixed(f.dropDb, 0)} dB under the middle at 5 to 10 kHz.`,
          remedy:
            "check that the tweeter plays (ear at its side, soft noise), its fuse, cable and level, and that the microphone points where it should",
        },
} satisfies Wordings;
