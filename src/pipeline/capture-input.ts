import type { Recording, Signal } from "../model.js";
import type { NamedPlayed } from "./findings/why-no-sweep.js";

/** One recording with what the session says was played in it. */
export interface CaptureInput extends NamedPlayed {
  readonly recording: Recording;
  /** The microphone's channel. */
  readonly signal: Signal;
  /** The electrical loopback's channel. */
  readonly loopback: Signal | null;
  /** The session's other sweeps, should one of them be in the recording instead. */
  readonly otherSweeps: readonly NamedPlayed[];
  readonly deviationDb: ((frequencyHz: number) => number) | null;
}
