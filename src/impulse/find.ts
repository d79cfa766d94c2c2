import { decimate } from "../dsp/decimate.js";
import type { Signal, SweepRecipe } from "../model.js";
import type { Event, FoundEvent } from "./event.js";
import type { Excitation } from "./excitation.js";
import { compress, decimatedSweep } from "./find/compress.js";
import { likenessToMarker } from "./find/likeness-to-marker.js";
import { otherPeaks } from "./find/other-peaks.js";
import { backgroundOf, compressesAtOnePlace, strongest } from "./find/peaks.js";
import { MARKER_LIKENESS, readAs } from "./find/reading.js";

/** The search runs at about this rate: enough to tell sweeps apart, fast for long files. */
const SEARCH_RATE = 4000;
/** A sweep compresses to a peak at least this far above the background; noise stays near 12 dB. */
const LEAST_CLARITY_DB = 22;
/** A sweep that the timeline does not explain counts when it is no more than this below the strongest. */
const OTHER_SHARE = 10 ** (-15 / 20);
const NOTHING: Heard = { found: [], isSure: true, otherSamples: [] };

/** What of a timeline a recording holds. */
export interface Heard {
  /** One entry per event that was heard; sweeps not heard are missing; none if no sweep was found. */
  readonly found: readonly FoundEvent[];
  /** It is sure which sweep is which: all were heard, or the markers decide. */
  readonly isSure: boolean;
  /** File samples at which further such sweeps begin that stand nowhere in the timeline, or something like one where none was found. */
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
  const leastHeight = background * 10 ** (LEAST_CLARITY_DB / 20);
  if (!(peak > leastHeight)) return NOTHING;
  if (!compressesAtOnePlace(compressed.response, anchor, rate)) {
    return { ...NOTHING, otherSamples: [(anchor + compressed.firstLag) * factor] };
  }

  const sweeps = timeline.filter((event) => event.kind === "sweep");
  const markerPeaks = marker ? likenessToMarker(heard, marker, factor) : null;
  const { sampleRate } = recording;
  const searched = { compressed, sampleRate, factor, anchor, peak, background, leastHeight, markerPeaks };
  const readings = sweeps.map((assumed) => readAs(assumed, timeline, searched));
  // Markers only decide between equally good readings of the sweeps.
  const [best, second] = readings.sort((a, b) => b.sweeps + b.markers / 5 - (a.sweeps + a.markers / 5));
  if (!best) return NOTHING;
  const count = best.found.filter(({ event }) => event.kind === "sweep").length;
  const decided = !second || best.sweeps > second.sweeps + 0.1 || best.markers - second.markers > MARKER_LIKENESS;
  const placed = best.found.flatMap(({ event, startSample }) =>
    event.kind === "sweep" ? [startSample / factor - compressed.firstLag] : [],
  );
  const others = otherPeaks(compressed.response, placed, excitation.growthS, rate, {
    height: Math.max(OTHER_SHARE * peak, leastHeight),
  });
  return {
    found: best.found,
    isSure: count === sweeps.length || decided,
    otherSamples: others.map((at) => (at + compressed.firstLag) * factor),
  };
}
