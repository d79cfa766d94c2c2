import { forwardReal, inverseReal } from "../../../src/dsp/fft.js";
import { type Fault, inFirstRecording, type Strength } from "../fault.js";
import { LEAD_S, labRecipe } from "../laboratory.js";

/** Follows the power of a sine's peak: it rises with one time constant and falls with another. */
function envelope(samples: Float64Array, sampleRate: number, attackS: number, releaseS: number): Float64Array {
  const rise = Math.exp(-1 / (attackS * sampleRate));
  const fall = Math.exp(-1 / (releaseS * sampleRate));
  let power = 0;
  return samples.map((value) => {
    const now = 2 * value * value;
    const keep = now > power ? rise : fall;
    power = keep * power + (1 - keep) * now;
    return power;
  });
}

function compressor(thresholdDbfs: number, ratio: number, attackS = 0.01, releaseS = 0.2): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const power = envelope(samples, sampleRate, attackS, releaseS);
    return samples.map((value, n) => {
      const overDb = Math.max(0, 10 * Math.log10(power[n]! + 1e-30) - thresholdDbfs);
      return value * 10 ** ((-overDb * (1 - 1 / ratio)) / 20);
    });
  });
}

/** Brings everything to one level, the quiet with it. */
function leveller(targetDbfs: number, timeS: number, mostDb: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const power = envelope(samples, sampleRate, timeS, timeS);
    return samples.map((value, n) => {
      const gainDb = Math.min(mostDb, targetDbfs - 10 * Math.log10(power[n]! + 1e-30));
      return value * 10 ** (gainDb / 20);
    });
  });
}

/** Holds back what is softer than the threshold. */
function gate(thresholdDbfs: number, reductionDb: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const power = envelope(samples, sampleRate, 0.005, 0.05);
    let gain = 1;
    return samples.map((value, n) => {
      const wanted = 10 * Math.log10(power[n]! + 1e-30) > thresholdDbfs ? 1 : 10 ** (-reductionDb / 20);
      gain += (wanted - gain) * (wanted > gain ? 0.01 : 0.0005);
      return gain * value;
    });
  });
}

const FRAME = 1024;

/** Passes the sound through overlapping frames whose spectra are changed one after the other. */
function inFrames(change: (spectrum: Float64Array) => void): Strength["inject"] {
  const window = Float64Array.from({ length: FRAME }, (_, n) => Math.sin((Math.PI * (n + 0.5)) / FRAME));
  return inFirstRecording((samples) => {
    const output = new Float64Array(samples.length);
    for (let start = -FRAME / 2; start < samples.length; start += FRAME / 2) {
      const frame = window.map((weight, n) => weight * (samples[start + n] ?? 0));
      const spectrum = forwardReal(frame, FRAME);
      change(spectrum);
      inverseReal(spectrum).forEach((value, n) => {
        if (start + n >= 0 && start + n < output.length) output[start + n]! += window[n]! * value;
      });
    }
    return output;
  });
}

/** A lossy link: each frame's spectrum is rounded to steps so far under its largest value. */
const lossy = (stepDb: number): Strength["inject"] =>
  inFrames((spectrum) => {
    const largest = spectrum.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const step = largest * 10 ** (-stepDb / 20);
    if (step > 0) for (let k = 0; k < spectrum.length; k++) spectrum[k] = step * Math.round(spectrum[k]! / step);
  });

/** What removes echoes and noise from calls takes every sound that lasts for noise, bin by bin. */
function suppressor(mostDb: number): Strength["inject"] {
  const usual = new Float64Array(FRAME / 2 + 1);
  return inFrames((spectrum) => {
    for (let k = 0; k < usual.length; k++) {
      const power = spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
      usual[k] = usual[k]! * 0.9 + 0.1 * power;
      const gain = Math.max(10 ** (-mostDb / 20), Math.sqrt(Math.max(0, 1 - usual[k]! / (power + 1e-30))));
      spectrum[2 * k]! *= gain;
      spectrum[2 * k + 1]! *= gain;
    }
  });
}

/**
 * A person half a metre behind the microphone, half a square metre to sound, scatters sqrt(0.5 / 4 pi) 1.46 m / (1.9 m 0.5 m) of
 * the direct sound, 2.7 ms late; who starts and stops the player is there for both markers and gone for the sweeps.
 */
const PERSON = { gain: 0.31, delayS: 0.0027, untilS: 0.45 } as const;

const personAtMarkers: Strength["inject"] = inFirstRecording((samples, sampleRate) => {
  const delay = Math.round(PERSON.delayS * sampleRate);
  const alone = samples.slice();
  for (const { kind, atSample, samples: count } of labRecipe.events) {
    if (kind !== "marker") continue;
    const from = Math.round(LEAD_S * sampleRate) + atSample;
    const end = Math.min(samples.length, from + count + Math.round(PERSON.untilS * sampleRate));
    for (let n = from; n < end; n++) samples[n]! += PERSON.gain * alone[n - delay]!;
  }
  return samples;
});

export const processedFaults: readonly Fault[] = [
  {
    what: "the gain followed the level (sweep: peaks at −12 dBFS)",
    code: "processed",
    severity: "reject",
    strengths: [
      {
        strength: "not at all, but a person stood near for the markers alone",
        verdict: "harmless",
        inject: personAtMarkers,
      },
      {
        strength: "compressor 2:1 that is not reached, −11 dBFS",
        verdict: "harmless",
        isSlow: true,
        inject: compressor(-11, 2),
      },
      { strength: "compressor 2:1 above −19 dBFS", verdict: "harmful", inject: compressor(-19, 2) },
      {
        strength: "the same, slow: 0.3 s and 2 s",
        verdict: "harmful",
        isSlow: true,
        inject: compressor(-19, 2, 0.3, 2),
      },
      { strength: "compressor 4:1 above −30 dBFS", verdict: "harmful", isSlow: true, inject: compressor(-30, 4) },
      { strength: "leveller to −34 dBFS, 0.5 s", verdict: "harmful", isSlow: true, inject: leveller(-34, 0.5, 10) },
      { strength: "noise gate of 6 dB at −50 dBFS", verdict: "harmful", inject: gate(-50, 6) },
      { strength: "noise gate of 20 dB", verdict: "harmful", isSlow: true, inject: gate(-50, 20) },
    ],
  },
  {
    what: "the recording went through a lossy link",
    code: "processed",
    severity: "reject",
    strengths: [
      { strength: "steps 84 dB under each frame's largest", verdict: "harmless", isSlow: true, inject: lossy(84) },
      { strength: "steps 54 dB under", verdict: "harmless", isSlow: true, inject: lossy(54) },
      { strength: "steps 32 dB under", verdict: "harmful", inject: lossy(32) },
      { strength: "steps 24 dB under", verdict: "harmful", isSlow: true, inject: lossy(24) },
    ],
  },
  {
    what: "echo cancelling or noise suppression was on",
    code: "processed",
    severity: "reject",
    strengths: [
      { strength: "up to 12 dB, bin by bin", verdict: "harmful", inject: suppressor(12) },
      { strength: "up to 6 dB, bin by bin", verdict: "harmful", isSlow: true, inject: suppressor(6) },
    ],
  },
];
