import type { Session } from "../../model.js";
import type { Scenario } from "../scenario.js";
import { CALIBRATOR_FILE } from "./calibrator.js";
import type { PlannedRecording } from "./plan.js";

/** Writes down the session that an engineer would write who measures the scenario's studio. */
export function describeSession(scenario: Scenario, planned: readonly PlannedRecording[]): Session {
  const [lengthM, widthM, heightM] = scenario.room.sizeM;
  const { calibrator } = scenario.recorder;
  return {
    schema: "carrywell/session/1",
    ...scenario.about,
    room: { name: scenario.roomName, lengthM, widthM, heightM },
    ...(scenario.panels && { panels: scenario.panels }),
    environment: {
      temperatureC: scenario.temperatureC,
      relativeHumidityPercent: scenario.relativeHumidityPercent,
    },
    microphone: {
      name: "simulated, flat",
      gainFixed: true,
      ...(calibrator && {
        level: { file: CALIBRATOR_FILE, soundPressureLevelDb: calibrator.soundPressureLevelDb },
      }),
    },
    sweep: "sweep.json",
    monitors: scenario.pairs.map(({ id, role, name, placement }) => ({
      id,
      role,
      name,
      placement: { L: [...placement.L], R: [...placement.R] },
    })),
    positions: scenario.positions.map(({ id, kind, xyzM, statedM }) => ({ id, kind, xyzM: [...(statedM ?? xyzM)] })),
    recordings: planned.map(({ file, pair, position, take }) => ({
      file,
      monitor: pair,
      position,
      take,
      kind: "sweep",
    })),
  };
}
