import { type Fault, inFirstRecording, type Strength } from "../fault.js";

function clipAt(share: number, gainAfterwards: number): Strength["inject"] {
  return inFirstRecording((samples) => {
    const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const rail = share * peak;
    return samples.map((value) => (gainAfterwards * Math.min(rail, Math.max(-rail, value))) / rail);
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
];
