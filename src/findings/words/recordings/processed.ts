import { fixed, hertz } from "../../../words/numbers.js";
import type { Wordings } from "../../wording.js";

/** What changes the sound on its way: gain that moves, effects, lossy formats. */
export const processedWords = {
  processed: (
    f:
      | { readonly gainDb: number }
      | { readonly markerDb: number }
      | { readonly apartDb: number }
      | { readonly unlikeDb: number }
      | { readonly unevennessDb: number }
      | { readonly atS: number }
      | { readonly reSweepDb: number; readonly bandHz: number },
  ) => {
    const remedy =
      "switch off automatic gain, compressor, noise gate, noise suppression and echo cancelling, in the device and in the system's settings, choose WAV and no lossy format, and record again";
    if ("gainDb" in f) {
      const { gainDb } = f;
      return {
        message: `The gain moved while the sweep played: all of the room's noise was up to ${fixed(Math.abs(gainDb), 1)} dB ${gainDb > 0 ? "louder" : "softer"} under it than before.`,
        remedy,
      };
    }
    if ("markerDb" in f) {
      return {
        message: `Short sounds were recorded otherwise than long ones: the markers are ${fixed(Math.abs(f.markerDb), 1)} dB ${f.markerDb > 0 ? "louder" : "softer"} than the sweep, so something follows the level.`,
        remedy: `${remedy}; if it stays, play softer: a loudspeaker's limiter does the same`,
      };
    }
    if ("apartDb" in f) {
      return {
        message: `The gain moved between the two markers: the second is ${fixed(Math.abs(f.apartDb), 1)} dB ${f.apartDb > 0 ? "louder" : "softer"} than the first, and the same sound otherwise.`,
        remedy: `${remedy}; leave all gains alone while the reel plays`,
      };
    }
    if ("unlikeDb" in f) {
      return {
        message: `The markers and the sweep went through different things: what they do not have in common is only ${fixed(-f.unlikeDb, 0)} dB weaker than a marker, so something changes the sound with time.`,
        remedy: `${remedy}; take chorus, flanger and other effects out of the channel, and leave the microphone and the loudspeaker alone while the reel plays`,
      };
    }
    if ("unevennessDb" in f) {
      return {
        message: `The silence has holes: at one frequency its loud moments stand ${fixed(f.unevennessDb, 0)} dB over its usual level, where a room's noise has 5 dB, as after noise suppression or a lossy format. Soft sounds, and so decays, are cut off by it.`,
        remedy,
      };
    }
    const told =
      "atS" in f
        ? `from ${fixed(f.atS, 1)} s on the sweep leaps again and again`
        : `all along the sweep the recording holds what was not played, up to ${fixed(-f.reSweepDb, 0)} dB under the sweep near ${hertz(f.bandHz)}`;
    return {
      message: `Something changes the sound on its way: ${told}.`,
      remedy:
        "record by cable instead of a wireless link, uncompressed, without noise suppression; if it stays, listen for what rattles along",
    };
  },
} satisfies Wordings;
