import { withClockDrift } from "../../../src/simulate/recording/clock-drift.js";
import { type Fault, inFirstRecording, type Strength } from "../fault.js";

function drifting(ppm: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => withClockDrift(samples, sampleRate, ppm));
}

/** A USB microphone runs on its own clock. It is corrected and said; nobody is warned. */
export const clockDriftFault: Fault = {
  what: "the recorder's clock drifted",
  code: "clock-drift",
  severity: "info",
  strengths: [
    { strength: "not at all", verdict: "harmless", isSlow: true, inject: (clean) => clean },
    { strength: "1 ppm", verdict: "harmful", isSlow: true, inject: drifting(1) },
    { strength: "-20 ppm", verdict: "harmful", inject: drifting(-20) },
    { strength: "300 ppm", verdict: "harmful", isSlow: true, inject: drifting(300) },
  ],
};
