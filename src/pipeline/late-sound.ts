import { betweenWalls } from "../comparison/flutter/between-walls.js";
import { doubleSlope } from "../metrics/double-slope/double-slope.js";
import { type OctaveDecay, octaveDecays, together } from "../metrics/double-slope/octave-decays.js";
import { findFlutter, type Flutter } from "../metrics/flutter/find-flutter.js";
import type { DoubleSlopeResult, FlutterResult, ImpulseResponse, Measurement, Session } from "../model.js";

const PAIRS = ["front and rear wall", "side walls", "floor and ceiling"] as const;

/** What of a decay is judged only with all places together. */
export interface LateSound {
  readonly octaves: readonly OctaveDecay[];
  readonly flutter: Flutter | null;
}

export function lateSound(impulse: ImpulseResponse): LateSound {
  return { octaves: octaveDecays(impulse), flutter: findFlutter(impulse) };
}

/** A loudspeaker by itself: two at once tell of the room nothing that each does not. */
export interface HeardLate {
  readonly measurement: Measurement;
  readonly late: LateSound;
}

/** Trains of echoes between walls that face each other, wherever one was measured. */
export function flutterOf(session: Session, heard: readonly HeardLate[], soundSpeedMPerS: number): FlutterResult[] {
  const { lengthM, widthM, heightM } = session.room ?? {};
  return heard.flatMap(({ measurement, late }) => {
    const walls = late.flutter && betweenWalls(late.flutter, [lengthM, widthM, heightM], soundSpeedMPerS);
    if (!late.flutter || !walls || !measurement.quality.usable) return [];
    const { periodS, levelDb, aboveDb, t60S, echoes } = late.flutter;
    const { distanceM, distanceUncertaintyM, roundTripDb, axes } = walls;
    const between = axes.map((axis) => PAIRS[axis]!);
    return [
      {
        ...{ measurement: measurement.id, periodS, distanceM, distanceUncertaintyM, between },
        ...{ levelDb, aboveDb, t60S, roundTripDb, echoes },
      },
    ];
  });
}

/** Octaves whose decay, over all places and loudspeakers, has two slopes; only where a neighbour has two as well. */
export function doubleSlopesOf(heard: readonly HeardLate[]): DoubleSlopeResult[] {
  const usable = heard.filter(({ measurement }) => measurement.quality.usable);
  const octavesHz = [...new Set(usable.flatMap(({ late }) => late.octaves.map(({ nominalHz }) => nominalHz)))].sort(
    (a, b) => a - b,
  );
  const fits = octavesHz.map((nominalHz) => {
    const decays = usable.flatMap(({ late }) => late.octaves.filter((one) => one.nominalHz === nominalHz));
    const mean = together(decays);
    return { nominalHz, measurements: decays.length, fit: mean && doubleSlope(mean, mean) };
  });
  return fits.flatMap(({ nominalHz, measurements, fit }, k) => {
    // A slow mode of one octave leaks into the next one's foot; another room answers over a range.
    if (!fit || !(fits[k - 1]?.fit || fits[k + 1]?.fit)) return [];
    const { earlyS, lateS, apartDb, turnS, earlyRangeDb } = fit;
    const uncertainties = {
      earlyUncertaintyS: fit.earlyShare * earlyS,
      lateUncertaintyS: fit.lateShare * lateS,
    };
    return [{ nominalHz, measurements, earlyS, lateS, ...uncertainties, apartDb, turnS, turnDb: -earlyRangeDb }];
  });
}
