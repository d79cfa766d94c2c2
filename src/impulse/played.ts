import type { Signal, SweepRecipe } from "../model.js";
import type { Excitation } from "./excitation.js";
import { findEvents, type Heard } from "./find.js";
import type { Event } from "./event.js";

/** A sweep with the timeline that it was played in. */
export interface Played {
  readonly excitation: Excitation;
  /** What was played, in the order of playing; one sweep at sample 0 when only the sound is known. */
  readonly timeline: readonly Event[];
  /** Sound of the timeline's markers. */
  readonly marker: SweepRecipe | null;
}

/**
 * Looks for what was played as a recorder has it whose clock is off by a ratio.
 *
 * @param ratio - recorded duration over played
 */
export function findPlayed(signal: Signal, { excitation, timeline, marker }: Played, ratio = 1): Heard {
  if (ratio === 1) return findEvents(signal, excitation, timeline, marker);
  const stretched: Excitation = {
    ...excitation,
    samples: (clockRatio = 1) => excitation.samples(clockRatio * ratio),
  };
  const events = timeline.map((event) => ({ ...event, atSample: Math.round(event.atSample * ratio) }));
  // A marker that lasts longer is one made at a higher rate.
  const longer = marker && { ...marker, sampleRate: marker.sampleRate * ratio };
  return findEvents(signal, stretched, events, longer);
}

/** Every sweep was heard, and where there are markers, so many of them at least. */
export function isWhole({ found }: Heard, { timeline, marker }: Played, leastMarkers = 1): boolean {
  const sweeps = timeline.filter(({ kind }) => kind === "sweep").length;
  const markers = marker === null ? 0 : timeline.length - sweeps;
  const heardSweeps = found.filter(({ event }) => event.kind === "sweep").length;
  return heardSweeps === sweeps && found.length - heardSweeps >= Math.min(leastMarkers, markers);
}
