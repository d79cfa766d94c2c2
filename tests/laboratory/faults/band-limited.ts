import { type Fault, inFirstRecording, type Strength } from "../fault.js";
import { filtered, slope, steep } from "./filters.js";

const through = (gainAt: (frequencyHz: number) => number): Strength["inject"] =>
  inFirstRecording((samples, sampleRate) => filtered(samples, sampleRate, gainAt));

const shelf = (fromHz: number, gainDb: number) => (hz: number) =>
  10 ** ((gainDb * hz ** 2) / (hz ** 2 + fromHz ** 2) / 20);

const OWN = "the loudspeaker sounds so";

export const bandLimitedFaults: readonly Fault[] = [
  {
    what: "a wireless link cut the treble off",
    code: "band-limited",
    severity: "warning",
    strengths: [
      {
        strength: "none, a converter's filter at 20 kHz",
        verdict: "harmless",
        isSlow: true,
        inject: through(steep(20_000)),
      },
      {
        strength: "none, a loudspeaker that ends at 11 kHz with 48 dB an octave",
        verdict: "harmless",
        truth: OWN,
        isSlow: true,
        inject: through(slope(11_000, 48)),
      },
      { strength: "at 16 kHz", verdict: "harmful", inject: through(steep(16_000)) },
      { strength: "at 8 kHz", verdict: "harmful", isSlow: true, inject: through(steep(7800)) },
    ],
  },
  {
    what: "the tweeter did not play",
    code: "band-limited",
    severity: "warning",
    strengths: [
      {
        strength: "it did, but 10 dB too soft",
        verdict: "harmless",
        truth: OWN,
        isSlow: true,
        inject: through(shelf(2000, -10)),
      },
      { strength: "20 dB too soft", verdict: "harmful", truth: OWN, inject: through(shelf(2000, -20)) },
      {
        strength: "not at all, crossover at 2 kHz",
        verdict: "harmful",
        truth: OWN,
        isSlow: true,
        inject: through(slope(2000, 24)),
      },
    ],
  },
];
