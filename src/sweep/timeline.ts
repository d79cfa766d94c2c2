import type { SweepRecipe } from "../model.js";

export type TimelineEvent = SweepRecipe["events"][number];

/** Silence between a marker and the sweep after it. */
const MARKER_CLEAR_S = 0.5;

interface Pauses {
  sampleRate: number;
  leadS: number;
  gapS: number;
  repeats: number;
  sweepSamples: number;
  markerSamples: number;
}

/**
 * Lays out the reel: lead, marker, the left sweeps, the right sweeps, each with its gap, and the marker again.
 *
 * Both markers come from the left loudspeaker, so that their distance tells the recorder's clock from the player's.
 */
export function reelEvents(pauses: Pauses): TimelineEvent[] {
  return layOut(pauses, ["L", "R"]);
}

/** Lays out a file for one loudspeaker alone, markers included, as the reel does for two. */
export function singleEvents(recipe: SweepRecipe, channel: "L" | "R"): TimelineEvent[] {
  const samplesOf = (kind: "marker" | "sweep"): number =>
    recipe.events.find((event) => event.kind === kind)?.samples ?? 0;
  return layOut({ ...recipe, sweepSamples: samplesOf("sweep"), markerSamples: samplesOf("marker") }, [channel]);
}

function layOut(pauses: Pauses, channels: readonly ("L" | "R")[]): TimelineEvent[] {
  const { sampleRate, sweepSamples, markerSamples } = pauses;
  const events: TimelineEvent[] = [];
  let at = Math.round(pauses.leadS * sampleRate);
  const place = (kind: "marker" | "sweep", channel: "L" | "R", samples: number, pauseS: number): void => {
    events.push({ kind, channel, atSample: at, samples });
    at += samples + Math.round(pauseS * sampleRate);
  };
  const markerChannel = channels[0] ?? "L";
  place("marker", markerChannel, markerSamples, MARKER_CLEAR_S);
  for (const channel of channels) {
    for (let repeat = 0; repeat < pauses.repeats; repeat++) place("sweep", channel, sweepSamples, pauses.gapS);
  }
  place("marker", markerChannel, markerSamples, 0);
  return events;
}
