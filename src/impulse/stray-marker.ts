import { decimate } from "../dsp/decimate.js";
import type { Signal, SweepRecipe } from "../model.js";
import type { Event, FoundEvent } from "./event.js";
import { likenessToMarker, PLACE_TOLERANCE_S } from "./find/likeness-to-marker.js";

/** As the search for sweeps does. */
const SEARCH_RATE = 4000;
/** It is looked for so far to either side of its place, where it was looked for already. */
const REACH_S = 0.55;
/** Simulated: markers in dry and very live rooms 0.44 to 0.96, the rest of a reel up to 0.35. A choice of ours above that. */
const LEAST_LIKENESS = 0.45;
/** A place is told to this. */
const STEP_S = 0.001;

/**
 * Looks beside its place for a marker that was not heard there: samples were lost, or came twice, between it and the sweeps.
 *
 * @param found - what was heard, at least one sweep
 * @returns how much is missing, s, to a millisecond or so; negative where it came twice; null where there is no such marker
 */
export function strayMarker(
  { samples, sampleRate }: Signal,
  timeline: readonly Event[],
  found: readonly FoundEvent[],
  marker: Pick<SweepRecipe, "sampleRate" | "levelDbfs">,
): number | null {
  const anchor = found.find(({ event }) => event.kind === "sweep");
  const missed = timeline.filter((one) => one.kind === "marker" && !found.some(({ event }) => event === one));
  if (!anchor || missed.length === 0) return null;
  const factor = Math.max(1, Math.floor(sampleRate / SEARCH_RATE));
  const likeness = likenessToMarker(decimate(samples, factor), marker, factor);
  for (const { atSample } of missed) {
    const afterS = (atSample - anchor.event.atSample) / sampleRate;
    const likenessAt = (offS: number, reachS: number): number =>
      likeness.likenessNear(anchor.startSample + (afterS + offS) * sampleRate, reachS);
    const aside = range(2 * PLACE_TOLERANCE_S, REACH_S, 2 * PLACE_TOLERANCE_S).flatMap((offS) => [-offS, offS]);
    const near = likest(aside, (offS) => likenessAt(offS, PLACE_TOLERANCE_S));
    if (near.likeness < LEAST_LIKENESS) continue;
    const places = range(near.offS - PLACE_TOLERANCE_S, near.offS + PLACE_TOLERANCE_S, STEP_S);
    const { offS } = likest(places, (place) => likenessAt(place, STEP_S / 2));
    // What comes after the sweep comes early where samples are missing, what comes before it late.
    return afterS < 0 ? offS : -offS;
  }
  return null;
}

function range(from: number, to: number, step: number): number[] {
  return Array.from({ length: Math.floor((to - from) / step) + 1 }, (_, n) => from + n * step);
}

function likest(places: readonly number[], likenessAt: (offS: number) => number): { offS: number; likeness: number } {
  return places
    .map((offS) => ({ offS, likeness: likenessAt(offS) }))
    .reduce((best, one) => (one.likeness > best.likeness ? one : best));
}
