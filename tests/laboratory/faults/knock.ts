import { type Fault, inFirstRecording, type Strength } from "../fault.js";
import { inLeftSweep, leftSweepS } from "./moments.js";

/** Partials of a knock on wood: re the first one's frequency, share of the peak, seconds to fall by 8.7 dB. */
const PARTIALS = [
  [1, 0.6, 0.03],
  [3.7, 0.3, 0.015],
  [13, 0.2, 0.008],
] as const;
/** A knuckle is no hammer: the sound swells within a millisecond. */
const ATTACK_S = 0.001;

function knock(atS: number, peakDbfs: number, firstHz: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const start = inLeftSweep(atS);
    const peak = 10 ** (peakDbfs / 20);
    for (let n = start; n < Math.min(samples.length, start + 0.5 * sampleRate); n++) {
      const t = (n - start) / sampleRate;
      for (const [ratio, share, fallS] of PARTIALS) {
        const envelope = (1 - Math.exp(-t / ATTACK_S)) * Math.exp(-t / fallS);
        samples[n]! += peak * share * envelope * Math.sin(2 * Math.PI * ratio * firstHz * t);
      }
    }
    return samples;
  });
}

export const knockFault: Fault = {
  what: "somebody knocked against something (sweep: −20 dBFS RMS)",
  code: "knock",
  severity: "warning",
  strengths: [
    {
      strength: "peak −70 dBFS, 2.5 s into the sweep",
      verdict: "harmless",
      isSlow: true,
      inject: knock(2.5, -70, 120),
    },
    {
      strength: "peak −60 dBFS, 0.8 s into the sweep",
      verdict: "harmless",
      isSlow: true,
      inject: knock(0.8, -60, 120),
    },
    { strength: "peak −20 dBFS, a second before the sweep", verdict: "harmless", inject: knock(-1.2, -20, 120) },
    {
      strength: "peak −40 dBFS, 2.1 s into the sweep",
      verdict: "harmful",
      atS: leftSweepS(2.1),
      inject: knock(2.1, -40, 300),
    },
    {
      strength: "peak −30 dBFS, 0.9 s into the sweep",
      verdict: "harmful",
      isSlow: true,
      atS: leftSweepS(0.9),
      inject: knock(0.9, -30, 60),
    },
    {
      strength: "peak −20 dBFS, 3.5 s into the sweep",
      verdict: "harmful",
      isSlow: true,
      atS: leftSweepS(3.5),
      inject: knock(3.5, -20, 120),
    },
  ],
};
