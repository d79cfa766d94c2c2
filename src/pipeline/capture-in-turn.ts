import type { Finding, Recording, Results } from "../model.js";
import { captureRecording, type Take } from "./capture.js";
import { captureImpulse } from "./capture-impulse.js";
import { fromError, noiseUnknown } from "./findings.js";
import type { Inputs } from "./inputs.js";

/** What one recording gave: its takes, what was wrong with it, and the files that were read for it. */
export interface CapturedRecording {
  readonly takes: readonly Take[];
  readonly findings: readonly Finding[];
  readonly files: Results["provenance"]["files"];
}

/** Hears recordings one after the other. Never fails on a recording: what is wrong with it is among its findings. */
export function captureInTurn(inputs: Inputs): (recording: Recording) => Promise<CapturedRecording> {
  let before: Promise<unknown> = Promise.resolve();
  // One recording is in memory at a time.
  return (recording) => {
    const captured = before.then(() => captureOne(recording, inputs));
    before = captured;
    return captured;
  };
}

async function captureOne(recording: Recording, inputs: Inputs): Promise<CapturedRecording> {
  let captured: Pick<CapturedRecording, "takes" | "findings">;
  try {
    captured = await listen(recording, inputs);
  } catch (error) {
    captured = { takes: [], findings: [fromError(error, recording.file)] };
  }
  const used = [recording.file, recording.sweep];
  return { ...captured, files: inputs.provenance.filter(({ file }) => used.includes(file)) };
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
