import { bandEdges } from "../standards/iec61260.js";
import { REGIONS } from "../standards/regions.js";
import { BANDS, type Curve } from "./bands.js";
import { bandDrift } from "./drift/band-drift.js";
import type { DriftBand, DriftRegion } from "./drift/drift-result.js";
import { regionDrift } from "./drift/region-drift.js";
import { driftWords } from "./drift/words.js";

/** What is mixed on. */
export interface MixedOn {
  readonly id: string;
  readonly deviationDb: Curve;
  /** Standard uncertainty. */
  readonly uncertaintyDb: Curve;
  /** False where the monitor is blind: nobody knows what was done there. */
  readonly controlled: readonly boolean[];
}

/** What is heard on: another monitor, something neutral, a device that was measured, or a class with its envelope. */
export interface HeardOn {
  readonly id: string;
  readonly name: string;
  /** A device or a class is by nature far from neutral: what it does to every mix is kept apart. */
  readonly kind: "monitor" | "neutral" | "device" | "class";
  readonly deviationDb: Curve;
  readonly uncertaintyDb: Curve;
  /** The poor and the good member of a class, on the same scale. */
  readonly envelope: { readonly lowDb: Curve; readonly highDb: Curve } | null;
}

export interface DriftModel {
  /** Share of a monitor's colour that ends up inverted in the mix, 0 to 1. */
  readonly compensation: number;
  /** The least and the most that is to be reckoned with. */
  readonly compensationRange: readonly [number, number];
  /** Levels on any one scale, and the standard deviation between recordings. */
  readonly programme: { readonly levelDb: Curve; readonly spreadDb: Curve };
}

export interface Drift {
  readonly mixedOn: string;
  readonly heardOn: string;
  /** Upper edge of the lowest bands, as far as none of them is controlled. */
  readonly uncontrolledBelowHz: number | null;
  readonly bands: readonly DriftBand[];
  readonly regions: readonly DriftRegion[];
  /** The controlled band that drifts most; of a device or class by what this room adds. */
  readonly worst: { readonly nominalHz: number; readonly driftDb: number; readonly of: "whole" | "room-share" } | null;
  /** The drift in words; null where there is nothing worth a sentence. */
  readonly says: string | null;
}

/**
 * How a mix that was balanced on one system comes out on another, if the engineer corrects by ear.
 *
 * What went into the mix (`inMix`, by the smoothed deviation of the first) and the smoothed deviation of the second add up.
 *
 * The range holds that of the compensation, the repeatability of both measurements (k = 2) and, for a class, its poor and good
 * members. Where the first monitor is blind no sign is claimed: the range is then what recordings differ by there.
 *
 * @param mixed - deviations from the same reference as those of `heard`
 * @remarks Source: the sign is supported by experiments, the size is not; the model is ours (`DRIFT`, each with its source).
 * @example a monitor 4 dB over neutral below 100 Hz, c = 0.6, heard on neutral: -2.4 dB there
 */
export function drift(mixed: MixedOn, heard: HeardOn, model: DriftModel): Drift {
  const bands = bandDrift(mixed, heard, model);
  const regions = REGIONS.map((region) => regionDrift(region, bands, model.programme.levelDb));
  const uncontrolledBelowHz = uncontrolledBelow(bands);
  return {
    mixedOn: mixed.id,
    heardOn: heard.id,
    uncontrolledBelowHz,
    bands,
    regions,
    worst: worstOf(bands, heard.kind),
    says: driftWords(mixed.id, heard, regions, uncontrolledBelowHz),
  };
}

function uncontrolledBelow(bands: readonly DriftBand[]): number | null {
  const first = bands.findIndex(({ controlled }) => controlled);
  if (first === 0) return null;
  return bandEdges(BANDS[first < 0 ? BANDS.length - 1 : first - 1]!)[1];
}

function worstOf(bands: readonly DriftBand[], kind: HeardOn["kind"]): Drift["worst"] {
  const of = kind === "class" || kind === "device" ? "room-share" : "whole";
  let worst: Drift["worst"] = null;
  for (const { nominalHz, driftDb, roomShareDb } of bands) {
    const value = of === "whole" ? driftDb : roomShareDb;
    if (value !== null && (worst === null || Math.abs(value) > Math.abs(worst.driftDb))) {
      worst = { nominalHz, driftDb: value, of };
    }
  }
  return worst;
}
