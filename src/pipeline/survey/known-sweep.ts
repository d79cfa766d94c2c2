import type { Excitation } from "../../impulse/excitation.js";
import { findEvents } from "../../impulse/find.js";
import type { Event, FoundEvent } from "../../impulse/event.js";
import type { Signal, SweepRecipe } from "../../model.js";
import { singleEvents } from "../../sweep/timeline.js";

/** A sweep that may have been played, and the file that says so. */
export interface KnownSweep {
  readonly file: string;
  readonly excitation: Excitation;
  /** Null where only its sound is known. */
  readonly recipe: SweepRecipe | null;
}

/** What of a known sweep one channel holds. */
export interface SweepsHeard {
  readonly sweep: KnownSweep;
  /** Half a reel is heard like the file of one loudspeaker that was stopped before its last marker. */
  readonly holds: "reel" | "one sweep" | "either";
  readonly count: number;
  readonly first: FoundEvent;
}

/** Looks for the sweeps in one channel; null if none of them is there. */
export function hearSweeps(signal: Signal, sweeps: readonly KnownSweep[]): SweepsHeard | null {
  const heard = sweeps.flatMap((sweep) => hearSweep(signal, sweep) ?? []);
  return heard.reduce<SweepsHeard | null>((best, one) => (best && best.count >= one.count ? best : one), null);
}

function hearSweep(signal: Signal, sweep: KnownSweep): SweepsHeard | null {
  const { excitation, recipe } = sweep;
  if (signal.sampleRate !== excitation.sampleRate) return null;
  const single: Event[] = [{ kind: "sweep", channel: "L", atSample: 0, samples: excitation.samples().length }];
  const found = findEvents(signal, excitation, recipe?.events ?? single, recipe).found.filter(isSweep);
  const [first] = found;
  if (!first) return null;
  return {
    sweep,
    holds: recipe ? held(signal, excitation, recipe, found.length) : "one sweep",
    count: found.length,
    first,
  };
}

function held(signal: Signal, excitation: Excitation, recipe: SweepRecipe, count: number): SweepsHeard["holds"] {
  if (count > recipe.repeats) return "reel";
  const { found } = findEvents(signal, excitation, singleEvents(recipe, "L"), recipe);
  // Both markers, at the distance that they have in the file of one loudspeaker.
  return found.length - found.filter(isSweep).length === 2 ? "one sweep" : "either";
}

function isSweep({ event }: FoundEvent): boolean {
  return event.kind === "sweep";
}
