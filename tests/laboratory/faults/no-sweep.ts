import { whiteNoise } from "../../known-recording.js";
import { type Fault, inFirstRecording } from "../fault.js";
import { LEAD_S, labRecipe } from "../laboratory.js";

const { sampleRate, events } = labRecipe;
/** From the marker on there is nothing but noise as loud as the studio's. */
const untilSample = Math.round(LEAD_S * sampleRate) + events[0]!.atSample - 1000;

export const noSweepFault: Fault = {
  what: "nothing was played",
  code: "no-sweep",
  severity: "reject",
  strengths: [
    {
      strength: "the sweep 45 dB over white noise",
      verdict: "harmless",
      turnsGain: true,
      isSlow: true,
      inject: inFirstRecording((samples) => {
        const noise = whiteNoise(samples.length, 3);
        const sweep = samples.subarray(Math.round(3 * sampleRate), Math.round(6 * sampleRate));
        const power = sweep.reduce((sum, value) => sum + value * value, 0) / sweep.length;
        return samples.map((value, n) => 0.5 * (value + Math.sqrt(power) * 10 ** (-45 / 20) * noise[n]!));
      }),
    },
    {
      strength: "the room alone",
      verdict: "harmful",
      inject: inFirstRecording((samples) => samples.map((_, n) => samples[n % untilSample]!)),
    },
  ],
};
