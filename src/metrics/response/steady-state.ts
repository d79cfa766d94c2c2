import { decayEnd } from "../../dsp/decay-end.js";
import { fadeEnds } from "../../dsp/fade-ends.js";
import { forwardReal, transformSize } from "../../dsp/fft.js";
import { powerOf } from "../../dsp/log-power.js";
import type { ImpulseResponse } from "../../model.js";

/** The long window's spectrum: everything from before the arrival to the end of the decay. */
export interface SteadyState {
  readonly binHz: number;
  /** Half spectrum with the arrival at time zero. */
  readonly spectrum: Float64Array;
  /** Squared magnitude by bin. */
  readonly power: Float64Array;
  /** Power times group delay re the arrival, by bin: divided by power it is the group delay in seconds. */
  readonly delayPower: Float64Array;
  /** How many seconds of noise the window lets in. */
  readonly noiseS: number;
}

/** The window falls over so much of what it holds after the arrival, behind the end of the decay. */
const FALL_SHARE = 0.3;

/**
 * Transforms an impulse response through the steady-state window.
 *
 * The window begins well before the arrival, since a band-limited response rings on both sides of it: a cut 10 ms ahead
 * costs 2 dB at 25 Hz. It ends where the decay has sunk into the noise.
 */
export function steadyState(impulse: ImpulseResponse): SteadyState {
  const { sampleRate, arrivalSample } = impulse;
  const { windowed, noiseS, size } = throughWindow(impulse);
  const weighted = windowed.map((value, n) => value * (n - arrivalSample));
  const spectrum = forwardReal(windowed, size);
  const moment = forwardReal(weighted, size);
  const power = powerOf(spectrum);
  const delayPower = new Float64Array(power.length);
  const turn = (2 * Math.PI * arrivalSample) / size;
  for (let k = 0; k < power.length; k++) {
    const re = spectrum[2 * k]!;
    const im = spectrum[2 * k + 1]!;
    delayPower[k] = (re * moment[2 * k]! + im * moment[2 * k + 1]!) / sampleRate;
    // The arrival's own delay is taken out, so that phase is relative to it and varies slowly from bin to bin.
    const cosine = Math.cos(turn * k);
    const sine = Math.sin(turn * k);
    spectrum[2 * k] = re * cosine - im * sine;
    spectrum[2 * k + 1] = re * sine + im * cosine;
  }
  return { binHz: sampleRate / size, spectrum, power, delayPower, noiseS };
}

/** The window's power spectrum alone, with half the work. */
export function steadyPower(impulse: ImpulseResponse): Pick<SteadyState, "binHz" | "power"> {
  const { windowed, size } = throughWindow(impulse);
  return { binHz: impulse.sampleRate / size, power: powerOf(forwardReal(windowed, size)) };
}

function throughWindow(impulse: ImpulseResponse): { windowed: Float64Array; noiseS: number; size: number } {
  const { samples, sampleRate, arrivalSample } = impulse;
  const end = decayEnd(impulse).last / (1 - FALL_SHARE);
  const length = Math.min(samples.length, Math.ceil(arrivalSample + end));
  const rise = Math.max(1, arrivalSample);
  const fall = Math.max(1, FALL_SHARE * (length - arrivalSample));
  const { faded, windowEnergy } = fadeEnds(samples, length, rise, fall);
  return { windowed: faded, noiseS: windowEnergy / sampleRate, size: transformSize(Math.max(4, samples.length)) };
}

/** Phase at a frequency, degrees in -180..180, from the neighbouring bins. */
export function phaseAt(steady: SteadyState, frequencyHz: number): number {
  const place = frequencyHz / steady.binHz;
  const k = Math.min(Math.floor(place), steady.power.length - 2);
  const share = place - k;
  const re = steady.spectrum[2 * k]! * (1 - share) + steady.spectrum[2 * k + 2]! * share;
  const im = steady.spectrum[2 * k + 1]! * (1 - share) + steady.spectrum[2 * k + 3]! * share;
  return (180 / Math.PI) * Math.atan2(im, re);
}
