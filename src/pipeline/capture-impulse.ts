import { InputError } from "../errors.js";
import { findArrival } from "../impulse/arrival.js";
import { correctMicrophone } from "../impulse/correct-microphone.js";
import type { ImpulseResponse, Recording, Signal } from "../model.js";
import { levelFacts } from "../recording/level-facts.js";
import type { CaptureInput, Take } from "./capture.js";
import * as findings from "./findings.js";

/**
 * Takes a recording that is an impulse response already.
 *
 * @throws {InputError} when it is silent, or holds nothing in the band in which arrivals are read
 */
export function captureImpulse(recording: Recording, signal: Signal, deviationDb: CaptureInput["deviationDb"]): Take {
  const facts = levelFacts(signal);
  if (facts.silent) throw findings.silent(recording.file);
  const samples = Float64Array.from(signal.samples);
  const { sampleRate } = signal;
  let strongest = 0;
  for (let n = 1; n < samples.length; n++) if (Math.abs(samples[n]!) > Math.abs(samples[strongest]!)) strongest = n;
  // Silence behind it, for the search to look before the file's beginning without meeting its end.
  const padded = new Float64Array(samples.length + Math.ceil(0.1 * sampleRate));
  padded.set(samples);
  const arrival = findArrival(padded, sampleRate, [strongest - 0.001 * sampleRate, strongest + 0.001 * sampleRate]);
  if (!arrival) {
    throw new InputError("The impulse response has nothing between 1 and 8 kHz: its arrival cannot be found.", {
      where: recording.file,
      remedy: "export the impulse response unfiltered",
    });
  }
  const arrivalSample = Math.max(0, arrival.lagSamples);
  const impulse: ImpulseResponse = {
    samples,
    sampleRate,
    arrivalSample,
    polarity: arrival.polarity,
    sweptHz: [20, Math.min(20_000, 0.45 * sampleRate)],
    noise: null,
  };
  const zero = recording.timeZeroSample;
  return {
    recording,
    channel: recording.channel ?? "both",
    impulse: deviationDb ? correctMicrophone(impulse, deviationDb) : impulse,
    harmonics: [],
    noise: null,
    arrivalInFileS: arrivalSample / sampleRate,
    arrivalPlayedS: null,
    arrivalUncertaintyS: 0,
    flightS: zero === undefined ? null : (arrivalSample - zero) / sampleRate,
    drift: null,
    playedAtS: 0,
    levelDbfs: null,
    peakDbfs: facts.peakDbfs,
    clippedSamples: 0,
    signalToNoiseDb: null,
    residual: null,
  };
}
