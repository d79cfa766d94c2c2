import type { Fault, Strength } from "../fault.js";
import { cleanSession } from "../laboratory.js";
import { filtered } from "./filters.js";

/** Somebody has turned the loudspeaker's treble control between two takes. */
function treble(gainDb: number): Strength["inject"] {
  const gainAt = (hz: number): number => 10 ** ((gainDb * hz ** 2) / (hz ** 2 + 2000 ** 2) / 20);
  return () => {
    const clean = cleanSession({ mix: 2 });
    const second = clean.session.recordings[1]!.file;
    const sound = clean.sounds[second]!;
    const channels = sound.channels.map((samples) => filtered(samples, sound.sampleRate, gainAt));
    return { ...clean, sounds: { ...clean.sounds, [second]: { ...sound, channels } } };
  };
}

export const takesDifferFault: Fault = {
  what: "the loudspeaker's treble was turned between two takes",
  code: "takes-differ",
  severity: "warning",
  strengths: [
    { strength: "0.3 dB", verdict: "harmless", isSlow: true, inject: treble(-0.3) },
    { strength: "2 dB", verdict: "harmful", isSlow: true, inject: treble(-2) },
  ],
};
