import type { Finding, ImpulseResponse, Measurement, Recording, Results } from "../model.js";
import { captureRecording, type Take } from "./capture.js";
import { captureImpulse } from "./capture-impulse.js";
import { fromError, noiseUnknown } from "./findings.js";
import type { Inputs } from "./inputs.js";
import { type Group, measureGroup, measurePhantom } from "./measure.js";

/** What one recording gave: its takes, what was wrong with it, and the files that were read for it. */
export interface CapturedRecording {
  readonly takes: readonly Take[];
  readonly findings: readonly Finding[];
  readonly files: Results["provenance"]["files"];
}

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
  measure(group: Group): Promise<ReadOff>;
  measurePhantom(left: Measured, right: Measured, rightLaterS: number): Promise<ReadOff>;
}

/** Does the steps where it stands, one after the other. */
export function labourHere(inputs: Inputs): Labour {
  const { calibration } = inputs;
  let before: Promise<unknown> = Promise.resolve();
  return {
    // One recording is in memory at a time.
    capture(recording) {
      const captured = before.then(() => captureOne(recording));
      before = captured;
      return captured;
    },
    measure: (group) => Promise.resolve(measureGroup(group, calibration)),
    measurePhantom: (left, right, rightLaterS) =>
      Promise.resolve(measurePhantom(left, right, rightLaterS, calibration)),
  };

  async function captureOne(recording: Recording): Promise<CapturedRecording> {
    let captured: Pick<CapturedRecording, "takes" | "findings">;
    try {
      captured = await listen(recording, inputs);
    } catch (error) {
      captured = { takes: [], findings: [fromError(error, recording.file)] };
    }
    const used = [recording.file, recording.sweep];
    return { ...captured, files: inputs.provenance.filter(({ file }) => used.includes(file)) };
  }
}

async function listen(recording: Recording, inputs: Inputs): Promise<Pick<CapturedRecording, "takes" | "findings">> {
  const { signal, loopback } = await inputs.sound(recording);
  const { deviationDb } = inputs.calibration;
  if (recording.kind === "impulse") {
    const take = captureImpulse(recording, signal, deviationDb);
    return { takes: [take], findings: [noiseUnknown(recording.file)] };
  }
  return captureRecording({ recording, signal, loopback, deviationDb, ...(await inputs.played(recording)) });
}
