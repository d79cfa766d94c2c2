import type { SweepRecipe } from "../model.js";

export type Event = SweepRecipe["events"][number];

/** An event of the timeline with the place where the recording has it. */
export interface FoundEvent {
  readonly event: Event;
  /** File sample of the event's beginning, to within a few milliseconds; may be negative when it was not recorded. */
  readonly startSample: number;
  /** Peak over background of the coarse response, dB; null for a marker. */
  readonly clarityDb: number | null;
}
