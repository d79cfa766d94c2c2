import { withClockDrift } from "../../../src/simulate/recording/clock-drift.js";
import { type Fault, inFirstRecording, type Strength } from "../fault.js";

/** The recording lasts longer by a ratio than what was played. */
function lasting(ratio: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => withClockDrift(samples, sampleRate, 1e6 * (ratio - 1)));
}

export const rateMismatchFaults: readonly Fault[] = [
  {
    what: "player and recorder ran at different sample rates",
    code: "rate-mismatch",
    severity: "reject",
    strengths: [
      { strength: "450 ppm, a bad clock", verdict: "harmless", isSlow: true, inject: lasting(1 + 450e-6) },
      { strength: "600 ppm", verdict: "harmful", isSlow: true, inject: lasting(1 + 600e-6) },
      { strength: "0.1 % longer, pull-down", verdict: "harmful", inject: lasting(1.001) },
      { strength: "0.1 % shorter, pull-up", verdict: "harmful", isSlow: true, inject: lasting(1 / 1.001) },
      { strength: "1 % longer", verdict: "harmful", isSlow: true, inject: lasting(1.01) },
      { strength: "44.1 kHz read as 48 kHz", verdict: "harmful", inject: lasting(44.1 / 48) },
      { strength: "48 kHz read as 44.1 kHz", verdict: "harmful", isSlow: true, inject: lasting(48 / 44.1) },
    ],
  },
  {
    what: "the file names another rate than its sound has",
    code: "rate-mismatch",
    severity: "reject",
    strengths: [
      {
        strength: "48 kHz called 44.1 kHz",
        verdict: "harmful",
        inject: inFirstRecording((samples) => samples, { sampleRate: 44_100 }),
      },
    ],
  },
];
