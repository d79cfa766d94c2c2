import type { Finding, Recording, Results } from "../model.js";
import { type Captured, captureRecording, type Take } from "./capture.js";
import { captureImpulse } from "./capture-impulse.js";
import { fromError, noiseUnknown } from "./findings.js";
import type { Inputs } from "./inputs.js";
import type { CaptureInput } from "./capture-input.js";

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
  const { signal, loopback, fromS, findings } = await inputs.sound(recording);
  const { deviationDb } = inputs.calibration;
  if (recording.kind === "impulse") {
    const take = captureImpulse(recording, signal, deviationDb);
    return { takes: [take], findings: [...findings, noiseUnknown(recording.file)] };
  }
  const captured = inFile(await captureHeard({ recording, signal, loopback, deviationDb }, inputs), fromS);
  return { takes: captured.takes, findings: [...findings, ...captured.findings] };
}

async function captureHeard(
  heard: Pick<CaptureInput, "recording" | "signal" | "loopback" | "deviationDb">,
  inputs: Inputs,
): Promise<Captured> {
  try {
    return captureRecording({ ...heard, ...(await inputs.played(heard.recording)) });
  } catch (error) {
    return { takes: [], findings: [fromError(error, heard.recording.file)] };
  }
}

/** Times are the file's, though only a part of it was heard. */
function inFile({ takes, findings }: Captured, fromS: number): Captured {
  const later = (timeS: number | null): number | null => (timeS === null ? null : timeS + fromS);
  return {
    takes: takes.map((take) => ({
      ...take,
      arrivalInFileS: later(take.arrivalInFileS),
      residual: take.residual && { ...take.residual, worstAtS: later(take.residual.worstAtS) },
    })),
    findings: findings.map((finding) => ({ ...finding, atS: later(finding.atS) })),
  };
}
