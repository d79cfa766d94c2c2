import { type Fault, inFirstRecording, type Strength } from "../fault.js";
import { inLeftSweep, leftSweepS } from "./moments.js";

function lost(atS: number, count: number): Strength["inject"] {
  return inFirstRecording((samples) => {
    const at = inLeftSweep(atS);
    samples.copyWithin(at, at + count);
    return samples.subarray(0, samples.length - count);
  });
}

function twice(atS: number, count: number): Strength["inject"] {
  return inFirstRecording((samples) => {
    const at = inLeftSweep(atS);
    const longer = new Float64Array(samples.length + count);
    longer.set(samples.subarray(0, at));
    longer.set(samples.subarray(at - count), at);
    return longer;
  });
}

function zeros(atS: number, count: number): Strength["inject"] {
  return inFirstRecording((samples) => samples.fill(0, inLeftSweep(atS), inLeftSweep(atS) + count));
}

/** A static spark on the cable: the sweep goes on as if nothing had been. */
function spark(atS: number, peakDbfs: number): Strength["inject"] {
  return inFirstRecording((samples) => {
    const at = inLeftSweep(atS);
    for (let n = 0; n < 30; n++) samples[at + n]! += 10 ** (peakDbfs / 20) * Math.exp(-n / 5) * (-1) ** n;
    return samples;
  });
}

export const dropoutFaults: readonly Fault[] = [
  {
    what: "samples were lost",
    code: "dropout",
    severity: "reject",
    strengths: [
      { strength: "none, but a spark of −40 dBFS on the cable", verdict: "harmless", inject: spark(2.4, -40) },
      { strength: "1, at 1 kHz", verdict: "harmful", atS: leftSweepS(2.4), inject: lost(2.4, 1) },
      { strength: "1, at 210 Hz", verdict: "harmful", isSlow: true, atS: leftSweepS(1.5), inject: lost(1.5, 1) },
      { strength: "64, at 350 Hz", verdict: "harmful", isSlow: true, atS: leftSweepS(1.8), inject: lost(1.8, 64) },
      { strength: "480, at 8 kHz", verdict: "harmful", atS: leftSweepS(3.6), inject: lost(3.6, 480) },
      { strength: "1024, at 350 Hz", verdict: "harmful", isSlow: true, inject: lost(1.8, 1024) },
      { strength: "4096, at 1 kHz", verdict: "harmful", inject: lost(2.4, 4096) },
      { strength: "4096, at 2.8 kHz", verdict: "harmful", isSlow: true, inject: lost(3, 4096) },
      { strength: "9600, at 8 kHz", verdict: "harmful", isSlow: true, inject: lost(3.6, 9600) },
      { strength: "24000, at 1 kHz", verdict: "harmful", isSlow: true, inject: lost(2.4, 24_000) },
      { strength: "16, in the gap between the sweeps", verdict: "harmful", inject: lost(4.6, 16) },
      { strength: "128, in the gap between the sweeps", verdict: "harmful", isSlow: true, inject: lost(4.6, 128) },
      { strength: "1024, in the gap between the sweeps", verdict: "harmful", isSlow: true, inject: lost(4.6, 1024) },
    ],
  },
  {
    what: "samples came twice",
    code: "dropout",
    severity: "reject",
    strengths: [
      { strength: "64, at 125 Hz", verdict: "harmful", atS: leftSweepS(1.2), inject: twice(1.2, 64) },
      { strength: "512, at 2.8 kHz", verdict: "harmful", isSlow: true, atS: leftSweepS(3), inject: twice(3, 512) },
      { strength: "4096, at 1 kHz", verdict: "harmful", isSlow: true, inject: twice(2.4, 4096) },
    ],
  },
  {
    what: "zeros in place of samples",
    code: "dropout",
    severity: "reject",
    strengths: [
      {
        strength: "4 ms, in the silence before the first sound",
        verdict: "harmless",
        isSlow: true,
        inject: zeros(-1.5, 192),
      },
      { strength: "1 ms, at 1 kHz", verdict: "harmful", atS: leftSweepS(2.4), inject: zeros(2.4, 48) },
      {
        strength: "10 ms, in the gap between the sweeps",
        verdict: "harmful",
        isSlow: true,
        atS: leftSweepS(4.9),
        inject: zeros(4.9, 480),
      },
    ],
  },
];
