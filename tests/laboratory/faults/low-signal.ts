import { whiteNoise } from "../../../src/simulate/recording/noise.js";
import { type Fault, inFirstRecording, type Strength } from "../fault.js";

function noise(dbfs: number): Strength["inject"] {
  return inFirstRecording((samples) => {
    const added = whiteNoise(samples.length, 10 ** (dbfs / 20), 17);
    return samples.map((value, n) => value + added[n]!);
  });
}

export const lowSignalFault: Fault = {
  what: "the sweep was too soft for the room's white noise",
  code: "low-signal",
  severity: "warning",
  strengths: [
    { strength: "45 dB over it", verdict: "harmless", isSlow: true, inject: noise(-65.3) },
    { strength: "25 dB over it", verdict: "harmless", inject: noise(-45.3) },
    { strength: "14 dB over it", verdict: "harmful", inject: noise(-34.3) },
    { strength: "5 dB over it", verdict: "harmful", isSlow: true, inject: noise(-25.3) },
  ],
};
