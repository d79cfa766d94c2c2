import type { ImpulseResponse, Measurement, Recording } from "../model.js";
import type { Group } from "./group.js";
import { type CapturedRecording, captureInTurn } from "./capture-in-turn.js";
import type { Inputs } from "./inputs.js";
import { type LateSound, lateSound } from "./late-sound.js";
import { measureGroup, measurePhantom } from "./measure.js";

/** What was read off a group of takes. */
export interface ReadOff {
  readonly measurement: Measurement;
  readonly impulse: ImpulseResponse;
}

/** A group with what was read off it. */
export interface Measured extends ReadOff {
  readonly group: Group;
}

/**
 * The heavy steps of an analysis. Arguments and results are plain data, so that a door may spread them over threads; the
 * same steps done here give the same numbers.
 */
export interface Labour {
  /** Never fails on a recording: what is wrong with it is among the findings. */
  capture(recording: Recording): Promise<CapturedRecording>;
  /** Bands that reach above `decaysBelowHz` have no decay read. */
  measure(group: Group, decaysBelowHz?: number): Promise<ReadOff>;
  measurePhantom(left: Measured, right: Measured, rightLaterS: number): Promise<ReadOff>;
  /** What only those need who ask about the room. */
  lateSound(impulse: ImpulseResponse): Promise<LateSound>;
}

/** Does the steps where it stands, one after the other. */
export function labourHere(inputs: Inputs): Labour {
  const { calibration } = inputs;
  return {
    capture: captureInTurn(inputs),
    measure: (group, decaysBelowHz) => Promise.resolve(measureGroup(group, calibration, decaysBelowHz)),
    measurePhantom: (left, right, rightLaterS) =>
      Promise.resolve(measurePhantom(left, right, rightLaterS, calibration)),
    lateSound: (impulse) => Promise.resolve(lateSound(impulse)),
  };
}
