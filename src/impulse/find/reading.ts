import type { Event, FoundEvent } from "../event.js";
import type { Compressed } from "./compress.js";
import { type LikenessToMarker, PLACE_TOLERANCE_S } from "./likeness-to-marker.js";
import { isSkirt, strongest } from "./peaks.js";

/** A second sweep counts when it is no more than this below the first. */
const LEAST_SHARE = 10 ** (-40 / 20);
/** Clock error that the search allows for. */
const CLOCK_TOLERANCE = 600e-6;
/** Likeness that noise does not reach by chance, and one that it may: two of those are still compared with each other. */
export const MARKER_LIKENESS = 0.3;
const MAYBE_MARKER = 0.2;

/** What the search made of a recording. */
interface Searched {
  readonly compressed: Compressed;
  /** Of the recording, Hz. */
  readonly sampleRate: number;
  /** Samples of the recording for one of the search. */
  readonly factor: number;
  /** Index of the strongest peak, and its height. */
  readonly anchor: number;
  readonly peak: number;
  readonly background: number;
  /** Lower than this nothing is a sweep. */
  readonly leastHeight: number;
  readonly markerPeaks: LikenessToMarker | null;
}

/** The timeline laid on a recording. */
export interface Reading {
  /** Heights of the sweeps found, re the strongest peak, added up. */
  readonly sweeps: number;
  /** Likenesses of the markers found, added up. */
  readonly markers: number;
  readonly found: readonly FoundEvent[];
}

/**
 * Reads the timeline against the peaks, one sweep of it being taken for the strongest.
 *
 * @param assumed - the sweep that the strongest peak is taken for
 */
export function readAs(
  assumed: Event,
  timeline: readonly Event[],
  { compressed, sampleRate, factor, anchor, peak, background, leastHeight, markerPeaks }: Searched,
): Reading {
  const rate = sampleRate / factor;
  const endSample = (compressed.response.length + compressed.firstLag) * factor;
  const origin = (anchor + compressed.firstLag) * factor - assumed.atSample;
  const found: FoundEvent[] = [];
  let heights = 0;
  let markers = 0;
  for (const event of timeline.filter((other) => other.kind === "sweep")) {
    const toleranceS = PLACE_TOLERANCE_S + CLOCK_TOLERANCE * (Math.abs(event.atSample - assumed.atSample) / sampleRate);
    const expected = (origin + event.atSample) / factor - compressed.firstLag;
    const at = strongest(compressed.response, expected - toleranceS * rate, expected + toleranceS * rate);
    const height = Math.abs(compressed.response[at] ?? 0);
    if (height < LEAST_SHARE * peak || height < leastHeight) continue;
    if (isSkirt(compressed.response, at, rate)) continue;
    heights += Math.min(1, height / peak);
    const clarityDb = background > 0 ? 20 * Math.log10(height / background) : 200;
    found.push({ event, startSample: (at + compressed.firstLag) * factor, clarityDb });
  }
  for (const event of timeline.filter((other) => other.kind === "marker")) {
    const startSample = origin + event.atSample;
    // Of half a marker neither time nor sound can be held against those of a whole one.
    if (!markerPeaks || startSample < 0 || startSample + event.samples > endSample) continue;
    const likeness = markerPeaks.likenessNear(startSample);
    // Noise is a little like a marker everywhere.
    if (likeness > MARKER_LIKENESS) markers += likeness;
    if (likeness > MAYBE_MARKER) found.push({ event, startSample, clarityDb: null });
  }
  return { sweeps: heights, markers, found };
}
