import { synthesiseMarker, synthesiseSweep } from "../dsp/sweep-signal.js";
import type { SweepRecipe } from "../model.js";
import { singleEvents, type TimelineEvent } from "./timeline.js";

/** Renders the reel as it is played: shape `[n]` each, full scale 1. */
export function renderReel(recipe: SweepRecipe): { L: Float64Array; R: Float64Array } {
  return { L: renderChannel(recipe, recipe.events, "L"), R: renderChannel(recipe, recipe.events, "R") };
}

/** Renders the file for one loudspeaker alone: shape `[n]`, full scale 1. */
export function renderSingle(recipe: SweepRecipe, channel: "L" | "R"): Float64Array {
  return renderChannel(recipe, singleEvents(recipe, channel), channel);
}

function renderChannel(recipe: SweepRecipe, events: readonly TimelineEvent[], channel: "L" | "R"): Float64Array {
  const last = events.at(-1);
  const end = last ? last.atSample + last.samples : 0;
  const samples = new Float64Array(end + Math.round(recipe.tailS * recipe.sampleRate));
  const sounds = { marker: synthesiseMarker(recipe), sweep: synthesiseSweep(recipe) };
  for (const event of events) {
    if (event.channel === channel) samples.set(sounds[event.kind], event.atSample);
  }
  return samples;
}
