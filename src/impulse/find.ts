import { decimate } from "../dsp/decimate.js";
import { fittingSize, forwardReal, inverseReal, transformSize } from "../dsp/fft.js";
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
const SEARCH_RATE = 4000;
const SEARCH_BAND_HZ = [60, 1500] as const;
/** A sweep compresses to a peak at least this far above the background; noise stays near 12 dB. */
const LEAST_CLARITY_DB = 22;
/** The low and the high part of the right sweep compress at the same place; those of another one do not. */
const SPLIT_HZ = 300;
const SAME_PLACE_S = 0.04;
const PART_REACH_S = 1;
/** A second sweep counts when it is no more than this below the first. */
const LEAST_SHARE = 10 ** (-40 / 20);
/** No reflection comes so late and is twice as strong as what came before it. */
const SKIRT_S = 0.15;
/** Clock error that the search allows for. */
const CLOCK_TOLERANCE = 600e-6;
const PLACE_TOLERANCE_S = 0.03;
/** Likeness that noise does not reach by chance, and one that it may: two of those are still compared with each other. */
const MARKER_LIKENESS = 0.3;
const MAYBE_MARKER = 0.2;
/** A sweep that the timeline does not explain counts when it is no more than this below the strongest. */
const OTHER_SHARE = 10 ** (-15 / 20);
/** Nearer to a sweep than this it is that sweep's own decay. */
const OTHER_APART_S = 0.5;
const HARMONICS = [2, 3, 4];
const NOTHING: Heard = { found: [], isSure: true, otherSamples: [] };

/** What of a timeline a recording holds. */
export interface Heard {
  /** One entry per event that was heard; sweeps not heard are missing; none if no sweep was found. */
  readonly found: readonly FoundEvent[];
  /** It is sure which sweep is which: all were heard, or the markers decide. */
  readonly isSure: boolean;
  /** File samples at which further such sweeps begin that stand nowhere in the timeline. */
  readonly otherSamples: readonly number[];
}

/**
 * Finds the sweeps of a timeline anywhere in a recording, by their compressed peaks and the distances between them.
 *
 * @param timeline - events as played, at the excitation's sample rate; at least one sweep
 * @param marker - recipe for the marker's sound; null when the timeline has none
 */
export function findEvents(
  recording: Signal,
  excitation: Excitation,
  timeline: readonly Event[],
  marker: Pick<SweepRecipe, "sampleRate" | "levelDbfs"> | null,
): Heard {
  const factor = Math.max(1, Math.floor(recording.sampleRate / SEARCH_RATE));
  const rate = recording.sampleRate / factor;
  const heard = decimate(recording.samples, factor);
  const compressed = compress(heard, decimatedSweep(excitation, factor), rate);
  const background = backgroundOf(compressed.response);
  const anchor = strongest(compressed.response, 0, compressed.response.length);
  const peak = Math.abs(compressed.response[anchor] ?? 0);
  if (!(peak > background * 10 ** (LEAST_CLARITY_DB / 20))) return NOTHING;
  if (!compressesAtOnePlace(compressed.response, anchor, rate)) return NOTHING;

  const sweeps = timeline.filter((event) => event.kind === "sweep");
  const markerPeaks = marker ? compressMarker(heard, marker, factor) : null;
  const readings: { sweeps: number; markers: number; found: FoundEvent[] }[] = [];
  for (const assumed of sweeps) {
    const origin = (anchor + compressed.firstLag) * factor - assumed.atSample;
    const found: FoundEvent[] = [];
    let heights = 0;
    let markers = 0;
    for (const event of sweeps) {
      const toleranceS =
        PLACE_TOLERANCE_S + CLOCK_TOLERANCE * (Math.abs(event.atSample - assumed.atSample) / recording.sampleRate);
      const expected = (origin + event.atSample) / factor - compressed.firstLag;
      const at = strongest(compressed.response, expected - toleranceS * rate, expected + toleranceS * rate);
      const height = Math.abs(compressed.response[at] ?? 0);
      if (height < LEAST_SHARE * peak || height < background * 10 ** (LEAST_CLARITY_DB / 20)) continue;
      if (isSkirt(compressed.response, at, rate)) continue;
      heights += Math.min(1, height / peak);
      const clarityDb = background > 0 ? 20 * Math.log10(height / background) : 200;
      found.push({ event, startSample: (at + compressed.firstLag) * factor, clarityDb });
    }
    for (const event of timeline.filter((other) => other.kind === "marker")) {
      const startSample = origin + event.atSample;
      if (!markerPeaks || startSample < 0) continue;
      const likeness = markerPeaks.likenessNear(startSample);
      // Noise is a little like a marker everywhere.
      if (likeness > MARKER_LIKENESS) markers += likeness;
      if (likeness > MAYBE_MARKER) found.push({ event, startSample, clarityDb: null });
    }
    readings.push({ sweeps: heights, markers, found });
  }
  // Markers only decide between equally good readings of the sweeps.
  const [best, second] = readings.sort((a, b) => b.sweeps + b.markers / 5 - (a.sweeps + a.markers / 5));
  if (!best) return NOTHING;
  const count = best.found.filter(({ event }) => event.kind === "sweep").length;
  const decided = !second || best.sweeps > second.sweeps + 0.1 || best.markers - second.markers > MARKER_LIKENESS;
  const placed = best.found.flatMap(({ event, startSample }) =>
    event.kind === "sweep" ? [startSample / factor - compressed.firstLag] : [],
  );
  const others = otherPeaks(compressed.response, placed, excitation.growthS, rate, {
    height: Math.max(OTHER_SHARE * peak, background * 10 ** (LEAST_CLARITY_DB / 20)),
  });
  return {
    found: best.found,
    isSure: count === sweeps.length || decided,
    otherSamples: others.map((at) => (at + compressed.firstLag) * factor),
  };
}

/** Whether a place is but the foot of something much stronger beside it. */
function isSkirt(response: Float64Array, at: number, rate: number): boolean {
  const reach = SKIRT_S * rate;
  const top = strongest(response, at - reach, at + reach);
  return Math.abs(response[top]!) > 2 * Math.abs(response[at]!);
}

/** Peaks as sharp as a sweep's that are none of the placed ones, nor their decay, nor their harmonics. */
function otherPeaks(
  response: Float64Array,
  placed: readonly number[],
  growthS: number | null,
  rate: number,
  { height }: { height: number },
): number[] {
  const known = [...placed];
  const others: number[] = [];
  const apart = OTHER_APART_S * rate;
  const isKnown = (n: number): boolean =>
    known.some((at) => {
      if (Math.abs(n - at) < apart) return true;
      const isHarmonic = (order: number): boolean =>
        Math.abs(n - at + (growthS ?? 0) * Math.log(order) * rate) < SAME_PLACE_S * rate;
      return growthS !== null && HARMONICS.some(isHarmonic);
    });
  for (let n = 0; n < response.length; n++) {
    if (!(Math.abs(response[n]!) > height) || isKnown(n)) continue;
    const at = strongest(response, n, n + apart);
    // A decay that goes on, or a sound of another kind, is left alone once.
    known.push(at);
    if (!placed.some((one) => Math.abs(one - at) < apart) && compressesAtOnePlace(response, at, rate)) others.push(at);
  }
  return others;
}

const decimatedSweeps = new WeakMap<Excitation, Float64Array>();

/** The sweep at the search's rate, kept for the next recording. */
function decimatedSweep(excitation: Excitation, factor: number): Float64Array {
  const known = decimatedSweeps.get(excitation);
  if (known) return known;
  const sweep = decimate(excitation.samples(), factor);
  decimatedSweeps.set(excitation, sweep);
  return sweep;
}

interface Compressed {
  readonly response: Float64Array;
  /** Lag of the first value, in decimated samples. */
  readonly firstLag: number;
}

/** Whitened correlation with the sweep: sharp peaks where sweeps begin. */
function compress(heard: Float64Array, sweep: Float64Array, rate: number): Compressed {
  const size = fittingSize(heard.length + sweep.length);
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
  spectrum.fill(0, 0, 2 * from);
  spectrum.fill(0, 2 * to + 2);
  const circular = inverseReal(spectrum);
  const firstLag = -sweep.length;
  const response = new Float64Array(heard.length + sweep.length);
  response.set(circular.subarray(size + firstLag));
  response.set(circular.subarray(0, heard.length), sweep.length);
  return { response, firstLag };
}

/** Whether the parts of the response below and above the split peak together. */
function compressesAtOnePlace(response: Float64Array, anchor: number, rate: number): boolean {
  const reach = Math.round(PART_REACH_S * rate);
  const size = transformSize(2 * reach);
  const spectrum = forwardReal(response.slice(Math.max(0, anchor - reach), anchor + reach), size);
  const split = 2 * Math.round((SPLIT_HZ * size) / rate);
  const low = spectrum.slice().fill(0, split);
  const high = spectrum.fill(0, 0, split);
  const [a, b] = [low, high].map((part) => strongest(inverseReal(part), 0, 2 * reach));
  return Math.abs(a! - b!) <= SAME_PLACE_S * rate;
}

/** Median magnitude, from every eleventh value. */
function backgroundOf(response: Float64Array): number {
  const picked = Float64Array.from({ length: Math.ceil(response.length / 11) }, (_, n) => Math.abs(response[11 * n]!));
  picked.sort();
  return picked[picked.length >> 1] ?? 0;
}

/** Index of the largest magnitude. */
function strongest(values: Float64Array, from: number, to: number): number {
  const first = Math.max(0, Math.floor(from));
  const end = Math.min(values.length, Math.ceil(to));
  let best = first;
  for (let n = first + 1; n < end; n++) if (Math.abs(values[n]!) > Math.abs(values[best]!)) best = n;
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
