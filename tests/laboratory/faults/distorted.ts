import { type Fault, inFirstRecording, type Strength } from "../fault.js";
import { cleanSession } from "../laboratory.js";
import { filtered, steep } from "./filters.js";

/** Cuts off what is higher than so many dB under the highest. */
function clip(samples: Float64Array, overDb: number): Float64Array {
  const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  const rail = peak * 10 ** (-overDb / 20);
  return samples.map((value) => Math.min(rail, Math.max(-rail, value)));
}

/** An amplifier or a limiter without memory between player and loudspeaker. */
function played(overDb: number): Strength["inject"] {
  const change = (samples: Float64Array): Float64Array => clip(samples, overDb);
  return () => cleanSession({ mix: 1 }, change);
}

/** The microphone's preamp, whose edges the converter's filter rounds. */
const recorded = (overDb: number): Strength["inject"] =>
  inFirstRecording((samples, sampleRate) => filtered(clip(samples, overDb), sampleRate, steep(20_000)));

export const distortedFaults: readonly Fault[] = [
  {
    what: "the loudspeaker was driven too hard",
    code: "distorted",
    severity: "warning",
    strengths: [
      { strength: "0.2 dB over", verdict: "harmless", inject: played(0.2) },
      { strength: "1 dB over", verdict: "harmful", inject: played(1) },
      { strength: "3 dB over", verdict: "harmful", isSlow: true, inject: played(3) },
      { strength: "6 dB over", verdict: "harmful", isSlow: true, inject: played(6) },
    ],
  },
  {
    what: "the preamp was driven so hard before the converter's filter that no crest keeps to one level",
    code: "distorted",
    severity: "warning",
    strengths: [
      {
        strength: "0.2 dB over at the room's strongest note",
        verdict: "harmless",
        isSlow: true,
        inject: recorded(0.2),
      },
      { strength: "6 dB over", verdict: "harmful", inject: recorded(6) },
    ],
  },
];
