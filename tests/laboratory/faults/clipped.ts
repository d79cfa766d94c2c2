import { filtered, steep } from "./filters.js";
import { type Fault, inFirstRecording, type Strength } from "../fault.js";

function clipAt(share: number, gainAfterwards: number): Strength["inject"] {
  return inFirstRecording((samples) => {
    const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const rail = share * peak;
    return samples.map((value) => (gainAfterwards * Math.min(rail, Math.max(-rail, value))) / rail);
  });
}

/** Clipped at the input, then filtered, as by the converter or by a conversion to 44.1 kHz and back: every edge is rounded. */
function filteredClip(overDb: number, edgeHz = 21_000): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const rail = peak * 10 ** (-overDb / 20);
    const cut = samples.map((value) => Math.min(rail, Math.max(-rail, value)));
    return filtered(cut, sampleRate, steep(edgeHz));
  });
}

export const clippedFaults: readonly Fault[] = [
  {
    what: "the converter clipped",
    code: "clipped",
    severity: "reject",
    strengths: [
      { strength: "peak just at full scale", verdict: "harmless", turnsGain: true, inject: clipAt(1, 1) },
      { strength: "0.5 dB over", verdict: "harmful", inject: clipAt(10 ** (-0.5 / 20), 1) },
      { strength: "6 dB over", verdict: "harmful", isSlow: true, inject: clipAt(0.5, 1) },
    ],
  },
  {
    what: "the preamp clipped, the converter did not",
    code: "clipped",
    severity: "reject",
    strengths: [
      {
        strength: "peak just at the rail, 12 dB under full scale",
        verdict: "harmless",
        turnsGain: true,
        isSlow: true,
        inject: clipAt(1, 0.25),
      },
      { strength: "0.5 dB over, 12 dB under full scale", verdict: "harmful", inject: clipAt(10 ** (-0.5 / 20), 0.25) },
    ],
  },
  {
    what: "the input clipped, and the file was converted to 44.1 kHz and back",
    code: "clipped",
    severity: "reject",
    strengths: [
      { strength: "not at all", verdict: "harmless", isSlow: true, inject: filteredClip(0) },
      { strength: "1 dB over", verdict: "harmful", isSlow: true, inject: filteredClip(1) },
      { strength: "2 dB over", verdict: "harmful", isSlow: true, inject: filteredClip(2) },
      { strength: "2.5 dB over", verdict: "harmful", inject: filteredClip(2.5) },
    ],
  },
  {
    what: "the preamp clipped before the converter's filter at 20 kHz",
    code: "clipped",
    severity: "reject",
    strengths: [{ strength: "3 dB over", verdict: "harmful", isSlow: true, inject: filteredClip(3, 20_000) }],
  },
];
