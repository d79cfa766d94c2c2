import { delayBetween } from "../dsp/delay-between.js";
import { paddedCut } from "../dsp/padded-cut.js";
import { markerSampleCount } from "../dsp/sweep-signal.js";
import type { Signal } from "../model.js";
import type { FoundEvent } from "./event.js";

export interface ClockDrift {
  /** Positive: the recording lasts longer than what was played. */
  readonly ppm: number;
  readonly uncertaintyPpm: number;
  /** Large enough against its own uncertainty to be corrected. */
  readonly correct: boolean;
}

const MARKER_BAND_HZ = [500, 8000] as const;
const MARGIN_S = 0.035;
const DECAY_S = 0.1;
/** Two markers from one loudspeaker at one place are the same sound; less likeness means one of them was not heard. */
const LEAST_CORRELATION = 0.6;
const SIGNIFICANT_UNCERTAINTIES = 3;

/**
 * Compares the recorder's clock with the player's from two markers of the same loudspeaker.
 *
 * A sweep alone cannot tell a slow clock from a loudspeaker that delays its bass; the same sound heard twice can.
 *
 * @returns null when fewer than two markers were heard
 */
export function driftFromMarkers(recording: Signal, found: readonly FoundEvent[]): ClockDrift | null {
  const markers = found.filter(({ event }) => event.kind === "marker");
  const first = markers[0];
  const last = markers.at(-1);
  if (!first || !last || first === last) return null;
  const rate = recording.sampleRate;
  const margin = Math.round(MARGIN_S * rate);
  const length = 2 * margin + markerSampleCount(rate) + Math.round(DECAY_S * rate);
  const startA = Math.round(first.startSample) - margin;
  const startB = Math.round(last.startSample) - margin;
  const delay = delayBetween(
    paddedCut(recording.samples, startA, length),
    paddedCut(recording.samples, startB, length),
    rate,
    MARKER_BAND_HZ,
  );
  if (delay.correlation < LEAST_CORRELATION) return null;
  const played = last.event.atSample - first.event.atSample;
  return clockDrift(startB - startA + delay.samples, played, delay.uncertaintySamples);
}

/** Drift from the distance of two equal sounds as recorded and as played, in samples. */
export function clockDrift(recordedSamples: number, playedSamples: number, uncertaintySamples: number): ClockDrift {
  const ppm = 1e6 * (recordedSamples / playedSamples - 1);
  const uncertaintyPpm = (1e6 * uncertaintySamples) / playedSamples;
  return { ppm, uncertaintyPpm, correct: Math.abs(ppm) > SIGNIFICANT_UNCERTAINTIES * uncertaintyPpm };
}
