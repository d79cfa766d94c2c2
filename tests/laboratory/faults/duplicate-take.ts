import type { SampleFormat } from "../../../src/model.js";
import type { Fault, Strength } from "../fault.js";
import { cleanSession, type LabSession } from "../laboratory.js";

/** The second file holds what the first does. */
function copied(
  change: (samples: Float64Array) => Float64Array,
  format: SampleFormat = "pcm24",
  takes: Parameters<typeof cleanSession>[0] = { mix: 2 },
): Strength["inject"] {
  return (): LabSession => {
    const clean = cleanSession(takes);
    const [first, second] = clean.session.recordings;
    const sound = clean.sounds[first!.file]!;
    const copy = { ...sound, format, channels: sound.channels.map((samples) => change(samples.slice())) };
    return { ...clean, sounds: { ...clean.sounds, [second!.file]: copy } };
  };
}

const softer = (samples: Float64Array): Float64Array => samples.map((value) => 0.5 * value);

export const duplicateTakeFaults: readonly Fault[] = [
  {
    what: "a take is a copy of another",
    code: "duplicate-take",
    severity: "reject",
    strengths: [
      {
        strength: "two takes on one clock, alike to their noise",
        verdict: "harmless",
        isSlow: true,
        inject: () => cleanSession({ mix: 2 }),
      },
      { strength: "6 dB softer, in 16 bits", verdict: "harmful", inject: copied(softer, "pcm16") },
      {
        strength: "cut 0.1 s shorter at its beginning",
        verdict: "harmful",
        isSlow: true,
        inject: copied((samples) => samples.slice(4800)),
      },
      { strength: "the same samples", verdict: "harmful", isSlow: true, inject: copied((samples) => samples) },
    ],
  },
  {
    what: "one recording stands for two places",
    code: "duplicate-take",
    severity: "reject",
    strengths: [
      {
        strength: "the same samples",
        verdict: "harmful",
        isSlow: true,
        inject: copied((samples) => samples, "pcm24", { mix: 1, left: 1 }),
      },
    ],
  },
];
