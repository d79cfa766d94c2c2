import { fractionalOctaveEdges } from "../../../src/dsp/log-power.js";
import { inverseReal, transformSize } from "../../../src/dsp/fft.js";
import { Random } from "../../../src/simulate/random.js";
import { type Fault, inFirstRecording, type Strength } from "../fault.js";
import { inLeftSweep } from "./moments.js";

/** Adds noise of two octaves around a frequency from an instant on. */
function noise(fromS: number, centreHz: number, dbfs: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const size = transformSize(samples.length);
    const spectrum = new Random(71).fillNormal(new Float64Array(size + 2));
    const [low, high] = fractionalOctaveEdges(centreHz, 0.5);
    for (let k = 0; k <= size / 2; k++) {
      const hz = (k * sampleRate) / size;
      if (hz < low || hz > high) spectrum.fill(0, 2 * k, 2 * k + 2);
    }
    const sound = inverseReal(spectrum);
    const start = Math.max(0, inLeftSweep(fromS));
    let power = 0;
    for (let n = 0; n < size; n++) power += sound[n]! ** 2 / size;
    const gain = 10 ** (dbfs / 20) / Math.sqrt(power);
    for (let n = start; n < samples.length; n++) samples[n]! += gain * sound[n]!;
    return samples;
  });
}

export const noiseChangedFault: Fault = {
  what: "the air conditioning started during the sweep (sweep: −20 dBFS RMS)",
  code: "noise-changed",
  severity: "warning",
  strengths: [
    { strength: "−85 dBFS around 250 Hz", verdict: "harmless", isSlow: true, inject: noise(0.2, 250, -85) },
    {
      strength: "−55 dBFS, but in the silence before as well",
      verdict: "harmless",
      isSlow: true,
      inject: noise(-9, 250, -55),
    },
    { strength: "−60 dBFS around 250 Hz", verdict: "harmful", inject: noise(0.2, 250, -60) },
    {
      strength: "−50 dBFS around 1 kHz, from the second sweep on",
      verdict: "harmful",
      isSlow: true,
      inject: noise(5.5, 1000, -50),
    },
  ],
};
