import { type Fault, inFirstRecording } from "../fault.js";

/** The wrong input was armed: what is recorded is the converter's own last bits. */
export const silentFault: Fault = {
  what: "the wrong input was recorded",
  code: "silent",
  severity: "reject",
  strengths: [
    {
      strength: "the sweep at 60 dB less",
      verdict: "harmless",
      turnsGain: true,
      // Weak, and its own noise with it: nothing is lost in a file of floating point.
      inject: inFirstRecording((samples) => samples.map((value) => 1e-3 * value), { format: "float32" }),
    },
    {
      strength: "the last bit of 16 toggles",
      verdict: "harmful",
      inject: inFirstRecording((samples) => samples.map((_, n) => ((n * n) % 7 < 3 ? 1 / 32768 : 0))),
    },
    { strength: "nothing but zeros", verdict: "harmful", inject: inFirstRecording((samples) => samples.fill(0)) },
  ],
};
