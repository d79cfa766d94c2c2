import type { InputError } from "../../errors.js";
import {
  DC_OFFSET,
  HUM,
  MARKER_AGREEMENT,
  MARKER_PLACE,
  MARKERS_UNLIKE,
  MOVING_GAIN,
  NOISE_RISE,
  NOISE_WITH_HOLES,
} from "../../findings/limits.js";
import type { Hum } from "../../impulse/hum.js";
import type { Knock, QuietFacts } from "../../impulse/quiet-facts.js";
import type { Finding } from "../../model.js";
import { about, rejection } from "../findings.js";

/** What is wrong with the sound of one recording. */

export function dcOffset(file: string, offset: number): Finding[] {
  const percent = 100 * Math.abs(offset);
  if (percent < DC_OFFSET.value) return [];
  const { value: limit, source } = DC_OFFSET;
  return [about([file], "warning", "dc-offset", { percent }, { value: percent, unit: "%", limit, source })];
}

export const heldFor = (file: string, atS: number, samples: number, places: number): InputError =>
  rejection(file, "dropout", { atS, samples, places }, { value: samples, unit: "samples", limit: 0, atS });

export const jumped = (file: string, atS: number, places: number): InputError =>
  rejection(file, "dropout", { atS, samples: null, places }, { atS });

/** @param lostS - so much is missing; negative where it came twice */
export const broken = (file: string, atS: number, lostS: number, isExact: boolean): InputError =>
  rejection(file, "dropout", { atS, lostS, isExact }, { value: 1000 * lostS, unit: "ms", limit: 0, atS });

/** Somewhere between the first marker and the last. */
export const lostInSilence = (file: string, lostS: number): InputError =>
  rejection(file, "dropout", { lostS }, { value: 1000 * lostS, unit: "ms", limit: 0 });

/** A marker is farther from the sweep than any recorder's clock puts it. */
export const isOutOfPlace = (lateS: number): boolean => 1000 * Math.abs(lateS) > MARKER_PLACE.value;

export const lostBesideMarkers = (file: string, lateS: number): InputError => {
  const { value: limit, source } = MARKER_PLACE;
  return rejection(file, "dropout", { lateS }, { value: 1000 * lateS, unit: "ms", limit, source });
};

/** Too many jumps for lost buffers. */
export const leaping = (file: string, atS: number): InputError => rejection(file, "processed", { atS }, { atS });

export const isMovingGain = (gainDb: number | null): gainDb is number =>
  gainDb !== null && Math.abs(gainDb) >= MOVING_GAIN.value;

export const gainMoved = (file: string, gainDb: number): InputError => {
  const { value: limit, source } = MOVING_GAIN;
  return rejection(file, "processed", { gainDb }, { value: gainDb, unit: "dB", limit, source });
};

export const isOtherForMarkers = (markerDb: number | null): markerDb is number =>
  markerDb !== null && Math.abs(markerDb) >= MARKER_AGREEMENT.value;

export const followedLevel = (file: string, markerDb: number): InputError => {
  const { value: limit, source } = MARKER_AGREEMENT;
  return rejection(file, "processed", { markerDb }, { value: markerDb, unit: "dB", limit, source });
};

/** Markers, or the response and a marker, are less alike than anybody who moves could make them. */
export const areStrangers = (unlikeDb: number): boolean => unlikeDb > MARKERS_UNLIKE.value;

export const changedBetween = (file: string, unlikeDb: number): InputError => {
  const { value: limit, source } = MARKERS_UNLIKE;
  return rejection(file, "processed", { unlikeDb }, { value: unlikeDb, unit: "dB", limit, source });
};

export const markersApart = (file: string, apartDb: number): InputError => {
  const { value: limit, source } = MARKER_AGREEMENT;
  return rejection(file, "processed", { apartDb }, { value: apartDb, unit: "dB", limit, source });
};

export const hasHoles = (unevennessDb: number | null): unevennessDb is number =>
  unevennessDb !== null && unevennessDb >= NOISE_WITH_HOLES.value;

export const noiseWithHoles = (file: string, unevennessDb: number): InputError => {
  const { value: limit, source } = NOISE_WITH_HOLES;
  return rejection(file, "processed", { unevennessDb }, { value: unevennessDb, unit: "dB", limit, source });
};

export const lossy = (file: string, { atS, bandHz, reSweepDb }: Knock): InputError =>
  rejection(file, "processed", { reSweepDb, bandHz }, { value: reSweepDb, unit: "dB", atS, bandHz });

/** @param isAgain - the same happened at the same note of another sweep */
export const knock = (file: string, { atS, bandHz, excessDb, reSweepDb }: Knock, isAgain: boolean): Finding =>
  about(
    [file],
    "warning",
    "knock",
    { atS, bandHz, excessDb, reSweepDb, isAgain },
    { value: excessDb, unit: "dB", atS, bandHz },
  );

export function hum(file: string, found: Hum | null, sweepDb: number): Finding[] {
  if (!found || found.levelDb - sweepDb < HUM.value) return [];
  const reSweepDb = found.levelDb - sweepDb;
  const { mainsHz, strongestHz } = found;
  const { value: limit, source } = HUM;
  const parts = { value: reSweepDb, unit: "dB", limit, source, bandHz: strongestHz };
  return [about([file], "warning", "hum", { mainsHz, strongestHz, reSweepDb }, parts)];
}

export const isRisenInSilence = (rise: QuietFacts["rise"]): boolean =>
  rise !== null && rise.inSilenceDb >= NOISE_RISE.value;

export function noiseChanged(file: string, rise: QuietFacts["rise"]): Finding[] {
  if (!rise || rise.byDb < NOISE_RISE.value) return [];
  const { byDb, bandHz, atS } = rise;
  const { value: limit, source } = NOISE_RISE;
  return [about([file], "warning", "noise-changed", rise, { value: byDb, unit: "dB", limit, source, bandHz, atS })];
}
