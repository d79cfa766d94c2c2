import { decimate } from "../dsp/decimate.js";
import { forwardReal, inverseReal, transformSize } from "../dsp/fft.js";
import { synthesiseMarker } from "../dsp/sweep-signal.js";
import type { Signal, SweepRecipe } from "../model.js";
import type { Excitation } from "./excitation.js";

export type Event = SweepRecipe["events"][number];

/** An event of the timeline with the place where the recording has it. */
export interface FoundEvent {
  readonly event: Event;
  /** File sample of the event's beginning, to within a few milliseconds; may be negative when it was not recorded. */
  readonly startSample: number;
  /** Peak over background of the coarse response, dB; null for a marker. */
  readonly clarityDb: number | null;
}

/** The search runs at about this rate: enough to tell sweeps apart, fast for long files. */
const SEARCH_RATE = 6000;
const SEARCH_BAND_HZ = [60, 2300] as const;
/** A sweep compresses to a peak at least this far above the background; noise stays near 12 dB. */
const LEAST_CLARITY_DB = 22;
/** The low and the high part of the right sweep compress at the same place; those of another one do not. */
const SPLIT_HZ = 400;
const SAME_PLACE_S = 0.04;
const PART_REACH_S = 1;
/** A second sweep counts when it is no more than this below the first. */
const LEAST_SHARE = 10 ** (-40 / 20);
/** Clock error that the search allows for. */
const CLOCK_TOLERANCE = 600e-6;
const PLACE_TOLERANCE_S = 0.03;

/**
 * Finds the sweeps of a timeline anywhere in a recording, by their compressed peaks and the distances between them.
 *
 * @param timeline - events as played, at the excitation's sample rate; at least one sweep
 * @param marker - recipe for the marker's sound; null when the timeline has none
 * @returns one entry per event of the timeline that was heard; sweeps not heard are missing; empty if no sweep was found
 */
export function findEvents(
  recording: Signal,
  excitation: Excitation,
  timeline: readonly Event[],
  marker: Pick<SweepRecipe, "sampleRate" | "levelDbfs"> | null,
): FoundEvent[] {
  const factor = Math.max(1, Math.floor(recording.sampleRate / SEARCH_RATE));
  const rate = recording.sampleRate / factor;
  const heard = decimate(recording.samples, factor);
  const compressed = compress(heard, decimate(excitation.samples(), factor), rate);
  const background = backgroundOf(compressed.envelope);
  const anchor = strongest(compressed.envelope, 0, compressed.envelope.length);
  const peak = compressed.envelope[anchor] ?? 0;
  if (!(peak > background * 10 ** (LEAST_CLARITY_DB / 20))) return [];
  const places = [compressed.low, compressed.high].map((part) =>
    strongest(part, anchor - PART_REACH_S * rate, anchor + PART_REACH_S * rate),
  );
  if (Math.abs(places[0]! - places[1]!) > SAME_PLACE_S * rate) return [];

  const sweeps = timeline.filter((event) => event.kind === "sweep");
  const markerPeaks = marker ? compressMarker(heard, marker, factor) : null;
  let best: { score: number; found: FoundEvent[] } = { score: -1, found: [] };
  for (const assumed of sweeps) {
    const origin = (anchor + compressed.firstLag) * factor - assumed.atSample;
    const found: FoundEvent[] = [];
    let score = 0;
    for (const event of sweeps) {
      const toleranceS =
        PLACE_TOLERANCE_S + CLOCK_TOLERANCE * (Math.abs(event.atSample - assumed.atSample) / recording.sampleRate);
      const expected = (origin + event.atSample) / factor - compressed.firstLag;
      const at = strongest(compressed.envelope, expected - toleranceS * rate, expected + toleranceS * rate);
      const height = compressed.envelope[at] ?? 0;
      if (height < LEAST_SHARE * peak || height < background * 10 ** (LEAST_CLARITY_DB / 20)) continue;
      score += Math.min(1, height / peak);
      const clarityDb = background > 0 ? 20 * Math.log10(height / background) : 200;
      found.push({ event, startSample: (at + compressed.firstLag) * factor, clarityDb });
    }
    for (const event of timeline.filter((other) => other.kind === "marker")) {
      const startSample = origin + event.atSample;
      if (!markerPeaks || startSample < 0) continue;
      const likeness = markerPeaks.likenessNear(startSample);
      // Markers only decide between equally good readings of the sweeps.
      score += 0.2 * likeness;
      if (likeness > 0.2) found.push({ event, startSample, clarityDb: null });
    }
    if (score > best.score) best = { score, found };
  }
  return best.found;
}

interface Compressed {
  readonly envelope: Float64Array;
  /** The same of the part below and above the split. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** Lag of the first value, in decimated samples. */
  readonly firstLag: number;
}

/** Whitened correlation with the sweep: sharp peaks where sweeps begin. */
function compress(heard: Float64Array, sweep: Float64Array, rate: number): Compressed {
  const size = transformSize(heard.length + sweep.length);
  const spectrum = forwardReal(heard, size);
  const played = forwardReal(sweep, size);
  const bin = (hz: number): number => Math.min(size / 2, Math.round((hz * size) / rate));
  const from = bin(SEARCH_BAND_HZ[0]);
  const to = bin(SEARCH_BAND_HZ[1]);
  let most = 0;
  for (let k = from; k <= to; k++) most = Math.max(most, k * (played[2 * k]! ** 2 + played[2 * k + 1]! ** 2));
  for (let k = from; k <= to; k++) {
    const re = spectrum[2 * k]!;
    const im = spectrum[2 * k + 1]!;
    const pr = played[2 * k]!;
    const pi = played[2 * k + 1]!;
    // A sweep's energy falls with frequency: the floor under the division falls with it.
    const scale = 1 / (pr * pr + pi * pi + (1e-3 * most) / k);
    spectrum[2 * k] = scale * (re * pr + im * pi);
    spectrum[2 * k + 1] = scale * (im * pr - re * pi);
  }
  const firstLag = -sweep.length;
  const envelopeOf = (fromBin: number, toBin: number): Float64Array => {
    const part = new Float64Array(size + 2);
    part.set(spectrum.subarray(2 * fromBin, 2 * toBin + 2), 2 * fromBin);
    const circular = inverseReal(part);
    return Float64Array.from({ length: heard.length + sweep.length }, (_, n) => {
      const lag = n + firstLag;
      return Math.abs(circular[lag < 0 ? size + lag : lag]!);
    });
  };
  return {
    envelope: envelopeOf(from, to),
    low: envelopeOf(from, bin(SPLIT_HZ)),
    high: envelopeOf(bin(SPLIT_HZ), to),
    firstLag,
  };
}

/** Median of the envelope, from every eleventh value. */
function backgroundOf(envelope: Float64Array): number {
  const picked = envelope.filter((_, index) => index % 11 === 0).sort();
  return picked[picked.length >> 1] ?? 0;
}

function strongest(values: Float64Array, from: number, to: number): number {
  const first = Math.max(0, Math.floor(from));
  const end = Math.min(values.length, Math.ceil(to));
  let best = first;
  for (let n = first + 1; n < end; n++) if (values[n]! > values[best]!) best = n;
  return best;
}

/** Likeness of the recording with the marker around a place, 0..1. */
function compressMarker(
  heard: Float64Array,
  marker: Pick<SweepRecipe, "sampleRate" | "levelDbfs">,
  factor: number,
): { likenessNear(startSample: number): number } {
  const sound = decimate(synthesiseMarker(marker), factor);
  let soundEnergy = 0;
  for (const value of sound) soundEnergy += value * value;
  const reach = Math.ceil((PLACE_TOLERANCE_S * marker.sampleRate) / factor);
  return {
    likenessNear(startSample) {
      let best = 0;
      const centre = Math.round(startSample / factor);
      for (let start = centre - reach; start <= centre + reach; start++) {
        let product = 0;
        let energy = 0;
        for (let n = 0; n < sound.length; n++) {
          const value = heard[start + n] ?? 0;
          product += value * sound[n]!;
          energy += value * value;
        }
        if (energy > 0) best = Math.max(best, Math.abs(product) / Math.sqrt(energy * soundEnergy));
      }
      return best;
    },
  };
}
