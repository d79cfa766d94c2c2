import { MATCH_TOLERANCE } from "../comparison/modes/match-modes.js";
import { predictModes } from "../geometry/room-modes.js";
import { findModes } from "../metrics/modes/find-modes.js";
import { groupModes } from "../metrics/modes/group-modes.js";
import { lowResponse, type LowResponse } from "../metrics/modes/low-response.js";
import { ringMap } from "../metrics/modes/ring-map.js";
import { MODE_RANGE_HZ } from "../metrics/modes/sub-band.js";
import type { Measurement, MonitorResult, RoomModes, Session } from "../model.js";
import { roomDecay } from "../schema/room-decay.js";
import { roomVolumeM3 } from "../schema/room-volume.js";
import type { Measured } from "./labour.js";
import { type AtMix, heardMode } from "./room-modes/heard-modes.js";
import { schroederBound } from "./room-modes/schroeder-bound.js";
import { foundModes, modesAt } from "./room-modes/measured-modes.js";

interface Heard {
  readonly measurement: Measurement;
  readonly low: LowResponse;
}

/** Finds the room's modes in all that was recorded, and puts beside them what the dimensions predict. */
export function roomModes(
  session: Session,
  measured: readonly Measured[],
  monitors: readonly MonitorResult[],
  soundSpeedMPerS: number,
): { measurements: Measurement[]; roomModes: RoomModes } {
  const heard = measured
    .filter(({ measurement }) => !measurement.derived && measurement.quality.usable)
    .map(({ measurement, impulse }) => ({ measurement, low: lowResponse(impulse) }));
  const searched = ofOneRate(heard);
  const ids = searched.map(({ measurement }) => measurement.id);
  const { modes, rangeHz } = findModes(searched.map(({ low }) => low));
  const groups = groupModes(modes);
  const { predicted, predictedReason } = prediction(session, soundSpeedMPerS);
  const atMix = sidesAtMix(session, monitors, searched);
  return {
    measurements: measured.map(({ measurement }) => {
      const place = ids.indexOf(measurement.id);
      return place < 0 ? measurement : { ...measurement, modes: modesAt(groups, place) };
    }),
    roomModes: {
      measurements: ids,
      rangeHz: rangeHz && [...rangeHz],
      reason: rangeHz ? null : ids.length === 0 ? "nothing-recorded" : "too-little-recorded",
      measured: foundModes(groups, ids, predicted ?? []).map((mode, k) =>
        heardMode(mode, [...groups[k]!.members, ...groups[k]!.beside], atMix),
      ),
      predicted,
      predictedReason,
      tolerance: MATCH_TOLERANCE,
      ...schroeder(session, heard),
      ringMaps: atMix.map(({ monitor, sides }) => ({ monitor: monitor.id, ...ringMap(sides.map(({ low }) => low)) })),
    },
  };
}

/** Sounds of different sample rates do not lie on one grid: those of the commonest are searched. */
function ofOneRate(heard: readonly Heard[]): Heard[] {
  const rates = heard.map(({ low }) => low.sampleRate);
  const count = (rate: number): number => rates.filter((other) => other === rate).length;
  const commonest = rates.reduce((a, b) => (count(b) > count(a) ? b : a), rates[0] ?? 0);
  return heard.filter(({ low }) => low.sampleRate === commonest);
}

function prediction(session: Session, soundSpeedMPerS: number): Pick<RoomModes, "predicted" | "predictedReason"> {
  const { lengthM, widthM, heightM } = session.room ?? {};
  if (lengthM === undefined || widthM === undefined || heightM === undefined) {
    return { predicted: null, predictedReason: "no-dimensions" };
  }
  const predicted = predictModes([lengthM, widthM, heightM], soundSpeedMPerS, MODE_RANGE_HZ[1]);
  return { predicted, predictedReason: null };
}

function sidesAtMix(session: Session, monitors: readonly MonitorResult[], searched: readonly Heard[]): AtMix[] {
  const mix = session.positions.find(({ kind }) => kind === "mix")?.id;
  return monitors.flatMap((monitor) => {
    const sides = searched.flatMap(({ measurement, low }, place) =>
      measurement.monitor === monitor.id && measurement.position === mix ? [{ low, place }] : [],
    );
    return sides.length === 0 ? [] : [{ monitor, sides }];
  });
}

/** Octaves whose mean decay stands for T where modes begin to overlap in rooms of this size: a choice of ours. */
const SCHROEDER_OCTAVES_HZ = [125, 250];

function schroeder(
  session: Session,
  heard: readonly Heard[],
): Pick<RoomModes, "schroederHz" | "schroederUncertaintyHz"> {
  const times = heard.flatMap(({ measurement }) =>
    measurement.bands.flatMap((band) =>
      band.fraction === 1 && SCHROEDER_OCTAVES_HZ.includes(band.nominalHz) ? (roomDecay(band)?.timeS ?? []) : [],
    ),
  );
  const bound = schroederBound(times, roomVolumeM3(session.room));
  return { schroederHz: bound?.frequencyHz ?? null, schroederUncertaintyHz: bound?.uncertaintyHz ?? null };
}
