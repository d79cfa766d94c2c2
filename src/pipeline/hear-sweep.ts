import { decayEnd } from "../dsp/decay-end.js";
import { absolutePolarity } from "../impulse/absolute-polarity.js";
import { findArrival } from "../impulse/arrival.js";
import { arrivalUncertainty } from "../impulse/arrival-uncertainty.js";
import { beforeSeconds, type CutResponse, cutResponse } from "../impulse/cut-response.js";
import { type Deconvolved, deconvolve } from "../impulse/deconvolve.js";
import type { Excitation } from "../impulse/excitation.js";
import type { FoundEvent } from "../impulse/event.js";
import { splitHarmonics } from "../impulse/harmonics.js";
import { type LevelCeiling, levelCeiling } from "../impulse/level-ceiling.js";
import { type NoiseDensity, noiseInResponse } from "../impulse/noise.js";
import { residualOf, summariseResidual } from "../impulse/residual.js";
import { signalToNoise } from "../impulse/signal-to-noise.js";
import { sweepBreak } from "../impulse/sweep-break.js";
import type { HarmonicResponse, Measurement, Signal } from "../model.js";
import { notice } from "./notice.js";
import type { Noticed } from "./noticed.js";
import { isBentSweep } from "./sweep-distortion.js";

/** What every sweep of a recording is heard with. */
export interface Surroundings {
  readonly signal: Signal;
  /** The electrical loopback's channel. */
  readonly loopback: Signal | null;
  readonly found: readonly FoundEvent[];
  readonly noise: NoiseDensity | null;
  /** Recorded duration over played, where that is undone. */
  readonly clockRatio: number;
}

/** What one sweep brought back. */
export interface SweepAnswer {
  /** Not corrected by a microphone's table. */
  readonly cut: CutResponse;
  readonly harmonics: readonly HarmonicResponse[];
  /** File sample at which it begins to arrive. */
  readonly arrivalSample: number;
  readonly arrivalUncertaintyS: number;
  /** How long the room was recorded after the sweep's end, and whether the file's end is what cut it off. */
  readonly tail: { readonly seconds: number; readonly endsFile: boolean };
  /** Time from the electrical signal to the microphone, and the electrical signal's polarity. */
  readonly electrical: { readonly seconds: number; readonly polarity: 1 | -1 } | null;
  /** Which way its loudspeaker pushes in the recording; null where its phase does not tell. */
  readonly pushes: 1 | -1 | null;
  readonly signalToNoiseDb: number | null;
  readonly residual: Measurement["quality"]["residual"];
  readonly noticed: Omit<Noticed, "isDistorted">;
  /** Of crests that something bent; null where there is none, or no harmonics with it. */
  readonly ceiling: LevelCeiling | null;
}

/** The coarse search may be off by a strong early reflection or a slow loudspeaker. */
const SEARCH_MARGIN_S = 0.05;
/** With less silence behind a sweep its low frequencies are cut off while they still sound. */
export const LEAST_TAIL_S = 0.4;

/**
 * Deconvolves one sweep of a recording and notes down what it tells.
 *
 * @returns null when nothing arrived where the sweep was found
 */
export function hearSweep(around: Surroundings, excitation: Excitation, sweep: FoundEvent): SweepAnswer | null {
  const { signal, noise } = around;
  const deconvolved = deconvolveEvent(around, excitation, sweep, signal);
  const cut = cutEvent(deconvolved, sweep, excitation, noise);
  if (!cut) return null;
  const arrivalSample = deconvolved.startSample + cut.arrivalLag;
  const seconds = tailSeconds(deconvolved, sweep, excitation);
  const endsFile = deconvolved.startSample + deconvolved.segmentSamples === signal.samples.length;
  const decaySamples = decayEnd(cut.impulse).first;
  // A response that could not be followed to its end leaves itself unexplained.
  const isWhole = seconds >= LEAST_TAIL_S;
  const residual = isWhole ? residualOf(deconvolved, excitation, cut.arrivalLag, decaySamples, noise) : null;
  const broken = sweepBreak(deconvolved.circular, cut.arrivalLag, excitation);
  const harmonics = splitHarmonics(deconvolved, excitation, cut.arrivalLag);
  const ceiling = levelCeiling(signal, excitation, arrivalSample + excitation.zeroSample);
  return {
    cut,
    harmonics,
    arrivalSample,
    arrivalUncertaintyS: arrivalUncertainty(cut.impulse),
    tail: { seconds, endsFile },
    electrical: electricalOf(around, excitation, sweep, arrivalSample),
    pushes: absolutePolarity(cut.impulse),
    signalToNoiseDb: noise && signalToNoise(deconvolved, sweep.event.samples, noise),
    residual: residual && summariseResidual(residual),
    noticed: notice(signal, excitation, sweep, cut, residual, decaySamples, broken),
    // One reflection in a dry room makes crests of one height too, but no harmonics.
    ceiling: ceiling && isBentSweep(cut.impulse, harmonics) ? ceiling : null,
  };
}

/** What is needed of one sweep to hold it against another by time: its answer around the arrival. */
export function hearArrival(
  around: Surroundings,
  excitation: Excitation,
  sweep: FoundEvent,
): { readonly arrivalSample: number; readonly cut: CutResponse } | null {
  const deconvolved = deconvolveEvent(around, excitation, sweep, around.signal);
  const cut = cutEvent(deconvolved, sweep, excitation, null);
  return cut && { arrivalSample: deconvolved.startSample + cut.arrivalLag, cut };
}

function deconvolveEvent(
  { found, clockRatio }: Surroundings,
  excitation: Excitation,
  sweep: FoundEvent,
  signal: Signal,
): Deconvolved {
  const { sampleRate } = signal;
  const margin = SEARCH_MARGIN_S * sampleRate;
  const later = found
    .filter(({ startSample }) => startSample > sweep.startSample)
    .map(({ startSample }) => startSample);
  const endSample = Math.min(signal.samples.length, ...later.map((startSample) => startSample - 0.01 * sampleRate));
  return deconvolve(
    signal,
    excitation,
    {
      startSample: sweep.startSample - margin,
      endSample: Math.floor(endSample),
      beforeSamples: Math.ceil((beforeSeconds(excitation) + 2 * SEARCH_MARGIN_S) * sampleRate),
    },
    clockRatio,
  );
}

function cutEvent(
  deconvolved: Deconvolved,
  sweep: FoundEvent,
  excitation: Excitation,
  noise: NoiseDensity | null,
): CutResponse | null {
  const expectedLag = sweep.startSample - deconvolved.startSample;
  const after = tailSeconds(deconvolved, sweep, excitation) * excitation.sampleRate;
  return cutResponse(
    deconvolved,
    excitation,
    expectedLag,
    Math.max(after, 0.05 * excitation.sampleRate),
    noise && noiseInResponse(noise, excitation, deconvolved.circular.length, deconvolved.clockRatio),
  );
}

/** From the sweep's end to the next sound or the end of the file. */
function tailSeconds(deconvolved: Deconvolved, sweep: FoundEvent, excitation: Excitation): number {
  const behind = deconvolved.segmentSamples - (sweep.startSample - deconvolved.startSample);
  return (behind - excitation.samples(deconvolved.clockRatio).length) / excitation.sampleRate;
}

function electricalOf(
  around: Surroundings,
  excitation: Excitation,
  sweep: FoundEvent,
  arrivalSample: number,
): SweepAnswer["electrical"] {
  const { loopback } = around;
  if (!loopback) return null;
  const electrical = deconvolveEvent(around, excitation, sweep, loopback);
  const expected = sweep.startSample - electrical.startSample;
  const { sampleRate } = loopback;
  const arrival = findArrival(electrical.circular, sampleRate, [
    expected - 0.2 * sampleRate,
    expected + 0.03 * sampleRate,
  ]);
  if (!arrival) return null;
  const seconds = (arrivalSample - electrical.startSample - arrival.lagSamples) / sampleRate;
  return { seconds, polarity: arrival.polarity };
}
