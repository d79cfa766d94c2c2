import { forwardReal, inverseReal } from "../../../src/dsp/fft.js";
import { inFirstRecording, type Strength } from "../fault.js";

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

export function compressor(thresholdDbfs: number, ratio: number, attackS = 0.01, releaseS = 0.2): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const power = envelope(samples, sampleRate, attackS, releaseS);
    return samples.map((value, n) => {
      const overDb = Math.max(0, 10 * Math.log10(power[n]! + 1e-30) - thresholdDbfs);
      return value * 10 ** ((-overDb * (1 - 1 / ratio)) / 20);
    });
  });
}

/** Brings everything to one level, the quiet with it. */
export function leveller(targetDbfs: number, timeS: number, mostDb: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const power = envelope(samples, sampleRate, timeS, timeS);
    return samples.map((value, n) => {
      const gainDb = Math.min(mostDb, targetDbfs - 10 * Math.log10(power[n]! + 1e-30));
      return value * 10 ** (gainDb / 20);
    });
  });
}

/** Holds back what is softer than the threshold. */
export function gate(thresholdDbfs: number, reductionDb: number): Strength["inject"] {
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

/** Holds what its follower of peaks has over the ceiling down to it. */
export function limiter(overDb: number, attackS: number, releaseS: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const peak = samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const ceiling = peak * 10 ** (-overDb / 20);
    const rise = Math.exp(-1 / (attackS * sampleRate));
    const fall = Math.exp(-1 / (releaseS * sampleRate));
    let follower = 0;
    return samples.map((value) => {
      const keep = Math.abs(value) > follower ? rise : fall;
      follower = keep * follower + (1 - keep) * Math.abs(value);
      return (value * ceiling) / Math.max(ceiling, follower);
    });
  });
}

/** The gain swings up and down. */
export function tremolo(rateHz: number, share: number, phase: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) =>
    samples.map((value, n) => value * (1 + share * Math.sin((2 * Math.PI * rateHz * n) / sampleRate + phase))),
  );
}

/** Adds a copy whose delay swings from nearly none to twice the mean. */
export function flanger(rateHz: number, meanMs: number, share: number): Strength["inject"] {
  return inFirstRecording((samples, sampleRate) => {
    const dry = samples.slice();
    return samples.map((value, n) => {
      const swing = 1 + 0.9 * Math.sin((2 * Math.PI * rateHz * n) / sampleRate);
      const at = n - (meanMs / 1000) * swing * sampleRate;
      const whole = Math.floor(at);
      const delayed = (1 - (at - whole)) * (dry[whole] ?? 0) + (at - whole) * (dry[whole + 1] ?? 0);
      return (value + share * delayed) / (1 + share);
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
export const lossy = (stepDb: number): Strength["inject"] =>
  inFrames((spectrum) => {
    const largest = spectrum.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
    const step = largest * 10 ** (-stepDb / 20);
    if (step > 0) for (let k = 0; k < spectrum.length; k++) spectrum[k] = step * Math.round(spectrum[k]! / step);
  });

/** What removes echoes and noise from calls takes every sound that lasts for noise, bin by bin. */
export function suppressor(mostDb: number): Strength["inject"] {
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
 * A denoiser that has learnt the noise from the first second or two: what does not stand out of it is taken back, bin by bin.
 *
 * @param mostDb - by how much at the most
 */
export function denoiser(mostDb: number): Strength["inject"] {
  return (clean) => {
    const frames = Math.floor((2 * clean.reel.sampleRate) / FRAME);
    const usual = new Float64Array(FRAME / 2 + 1);
    let frame = 0;
    const power = (spectrum: Float64Array, k: number): number => spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
    inFrames((spectrum) => {
      if (frame++ < frames) for (let k = 0; k < usual.length; k++) usual[k]! += power(spectrum, k) / frames;
    })(clean);
    return inFrames((spectrum) => {
      for (let k = 0; k < usual.length; k++) {
        const kept = Math.sqrt(Math.max(0, 1 - (2 * usual[k]!) / (power(spectrum, k) + 1e-30)));
        const gain = Math.max(10 ** (-mostDb / 20), kept);
        spectrum[2 * k]! *= gain;
        spectrum[2 * k + 1]! *= gain;
      }
    })(clean);
  };
}
