import type { AveragedTakes } from "../impulse/average-takes.js";
import type { ChannelName, Finding, Session } from "../model.js";
import type { Take } from "./capture.js";
import * as findings from "./findings.js";
import { takesAgree } from "./findings/takes-agree.js";

/** Takes of one monitor, channel and position. */
export interface Group {
  readonly id: string;
  readonly monitor: Session["monitors"][number];
  readonly channel: ChannelName;
  readonly position: string;
  readonly takes: readonly Take[];
}

export function measurementId(monitor: string, channel: ChannelName, position: string): string {
  return `${monitor}-${channel}@${position}`;
}

/** What stands for all takes: the worst of each. */
export interface GroupFacts {
  readonly signalToNoiseDb: number | null;
  /** The take that its response explains least. */
  readonly worst: Take;
  readonly drift: Take["drift"];
}

export function factsOf(takes: readonly Take[]): GroupFacts {
  return {
    signalToNoiseDb: extreme(
      Math.min,
      takes.map((take) => take.signalToNoiseDb),
    ),
    worst: takes.reduce((a, b) => ((b.residual?.worstExcessDb ?? -1) > (a.residual?.worstExcessDb ?? -1) ? b : a)),
    drift: takes.reduce((a, b) => (Math.abs(b.drift?.ppm ?? 0) > Math.abs(a.drift?.ppm ?? 0) ? b : a)).drift,
  };
}

/** What is corrected below this would have moved no figure. A choice of ours. */
const WORTH_SAYING_PPM = 0.5;

/**
 * What is to be said of the takes of one place.
 *
 * The report and the quick check both ask here, so that they say the same. Nothing may take long: whoever checks stands in the
 * room and waits.
 */
export function groupFindings({ id, takes }: Group, averaged: AveragedTakes, speedOfSound: number): Finding[] {
  const files = filesOf(takes);
  const { drift } = factsOf(takes);
  return [
    takesAgree(id, averaged, speedOfSound, files),
    drift?.correct && Math.abs(drift.ppm) >= WORTH_SAYING_PPM
      ? findings.driftCorrected(id, drift.ppm, drift.uncertaintyPpm, files)
      : null,
  ].filter((problem) => problem !== null);
}

export function filesOf(takes: readonly Take[]): string[] {
  return [...new Set(takes.map((take) => take.recording.file))];
}

/** @returns null when none is known */
export function extreme(pick: (...values: number[]) => number, values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : pick(...known);
}
