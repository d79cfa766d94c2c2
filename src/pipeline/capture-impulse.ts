import { paddedCut } from "../dsp/padded-cut.js";
import { InputError } from "../errors.js";
import { absolutePolarity } from "../impulse/absolute-polarity.js";
import { findArrival } from "../impulse/arrival.js";
import { correctMicrophone } from "../impulse/correct-microphone.js";
import type { ImpulseResponse, Recording, Signal } from "../model.js";
import { fingerprint } from "../recording/fingerprint.js";
import { levelFacts } from "../recording/level-facts.js";
import type { Take } from "./capture.js";
import * as findings from "./findings.js";
import type { CaptureInput } from "./capture-input.js";

/** So much silence stands before and behind the file's samples. */
const PAD_S = 0.4;

/**
 * Takes a recording that is an impulse response already.
 *
 * @throws {InputError} when it is silent, or holds nothing in the band in which arrivals are read
 */
export function captureImpulse(recording: Recording, signal: Signal, deviationDb: CaptureInput["deviationDb"]): Take {
  const facts = levelFacts(signal);
  if (facts.silent) throw findings.silent(recording.file);
  const { sampleRate } = signal;
  // Silence on both sides: windows rise ahead of the arrival, and the search may look before the file's beginning.
  const pad = Math.ceil(PAD_S * sampleRate);
  const samples = paddedCut(signal.samples, -pad, signal.samples.length + 2 * pad);
  let strongest = 0;
  for (let n = 1; n < samples.length; n++) if (Math.abs(samples[n]!) > Math.abs(samples[strongest]!)) strongest = n;
  const arrival = findArrival(samples, sampleRate, [strongest - 0.001 * sampleRate, strongest + 0.001 * sampleRate]);
  if (!arrival) {
    throw new InputError("The impulse response has nothing between 1 and 8 kHz: its arrival cannot be found.", {
      where: recording.file,
      remedy: "export the impulse response unfiltered",
    });
  }
  const impulse: ImpulseResponse = {
    samples,
    sampleRate,
    arrivalSample: arrival.lagSamples,
    polarity: arrival.polarity,
    sweptHz: [20, Math.min(20_000, 0.45 * sampleRate)],
    noise: null,
  };
  const inFileSample = arrival.lagSamples - pad;
  const zero = recording.timeZeroSample;
  return {
    recording,
    channel: recording.channel ?? "both",
    impulse: deviationDb ? correctMicrophone(impulse, deviationDb) : impulse,
    harmonics: [],
    noise: null,
    arrivalInFileS: inFileSample / sampleRate,
    arrivalPlayedS: null,
    arrivalUncertaintyS: 0,
    flightS: zero === undefined ? null : (inFileSample - zero) / sampleRate,
    pushes: absolutePolarity(impulse),
    drift: null,
    playedAtS: 0,
    levelDbfs: null,
    peakDbfs: facts.peakDbfs,
    clippedSamples: 0,
    signalToNoiseDb: null,
    residual: null,
    disturbedHz: [],
    fingerprint: fingerprint(signal.samples, sampleRate, null),
  };
}
