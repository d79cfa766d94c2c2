import type { Session } from "../model.js";
import { distort } from "./monitor/distortion.js";
import type { Monitor } from "./monitor.js";
import { type RecordedNoise, simulateRecording } from "./recording.js";
import { deskReflection } from "./room/desk-reflection.js";
import type { Octaves } from "./room/octave-split.js";
import type { Point, ShoeboxRoom } from "./room/room-path.js";
import { roomImpulse } from "./room.js";

/** A studio that does not exist, and how it is measured. */
export interface Scenario {
  readonly about: Pick<Session, "title" | "date" | "engineer" | "notes">;
  readonly roomName: string;
  readonly room: ShoeboxRoom;
  /** How long the room is listened to after each sound, seconds. */
  readonly responseS: number;
  readonly temperatureC: number;
  readonly relativeHumidityPercent: number;
  readonly pairs: readonly ScenarioPair[];
  readonly positions: readonly { readonly id: string; readonly kind: "mix" | "near" | "room"; readonly xyzM: Point }[];
  readonly recorder: {
    readonly gainDb: number;
    readonly clockDriftPpm: number;
    readonly noise: RecordedNoise;
    /** From the start of the recording to the start of the reel, one for each recording in turn, seconds. */
    readonly leadsS: readonly number[];
    readonly tailS: number;
  };
  readonly seed: number;
}

/** A left and a right loudspeaker. */
interface ScenarioPair {
  readonly id: string;
  readonly role: Session["monitors"][number]["role"];
  readonly name: string;
  readonly placement: { readonly L: Point; readonly R: Point };
  readonly monitors: { readonly L: Monitor; readonly R: Monitor };
  readonly directivity: Octaves;
  /** A desk between this pair and the listener: the height of its top and what a reflection there loses. */
  readonly desk?: { readonly heightM: number; readonly lossDb: number };
}

export interface SimulatedSession {
  readonly session: Session;
  readonly recordings: readonly { readonly file: string; readonly samples: Float64Array }[];
}

/**
 * Measures a studio that does not exist: one recording of the reel for each pair of monitors and position.
 *
 * The loudspeakers look at the mix position. The same scenario and reel always give the same samples.
 *
 * @param scenario - the studio
 * @param reel - what is played, full scale 1, shape `[n]` each
 * @returns a session that names the reel's recipe `sweep.json`, and the samples of each recording it names
 * @throws {RangeError} if the scenario has no mix position or contradicts the limits of the models
 */
export function simulateSession(
  scenario: Scenario,
  reel: { readonly L: Float64Array; readonly R: Float64Array; readonly sampleRate: number },
): SimulatedSession {
  const { recorder } = scenario;
  const mix = scenario.positions.find(({ kind }) => kind === "mix");
  if (!mix) throw new RangeError("the scenario has no position of the kind mix");
  const takes = scenario.pairs.flatMap((pair) => {
    // The bent curve stands before the room, so one pass serves all positions.
    const played = { L: drive(reel.L, pair.monitors.L), R: drive(reel.R, pair.monitors.R) };
    return scenario.positions.map((position) => ({ pair, played, position, file: `${pair.id}-${position.id}.wav` }));
  });
  const recordings = takes.map(({ pair, played, position, file }, index) => {
    const pathOf = (channel: "L" | "R"): { monitor: Monitor; roomImpulse: Float64Array } => {
      const path = {
        room: scenario.room,
        source: { xyzM: pair.placement[channel], aimM: mix.xyzM, directivity: pair.directivity },
        receiverM: position.xyzM,
        extraPaths: pair.desk ? [deskReflection(pair.placement[channel], position.xyzM, scenario.room, pair.desk)] : [],
      };
      return {
        monitor: withoutDistortion(pair.monitors[channel]),
        roomImpulse: roomImpulse(path, reel.sampleRate, scenario.responseS),
      };
    };
    const samples = simulateRecording({
      played,
      sampleRate: reel.sampleRate,
      paths: { L: pathOf("L"), R: pathOf("R") },
      leadS: recorder.leadsS[index % recorder.leadsS.length] ?? 0,
      tailS: recorder.tailS,
      clockDriftPpm: recorder.clockDriftPpm,
      gainDb: recorder.gainDb,
      noise: recorder.noise,
      seed: scenario.seed + index,
    });
    return { file, samples };
  });
  return { session: describeSession(scenario, takes), recordings };
}

function drive(played: Float64Array, monitor: Monitor): Float64Array {
  return monitor.distortion ? distort(played, monitor.distortion) : played;
}

function withoutDistortion(monitor: Monitor): Monitor {
  return { ...monitor, distortion: { second: 0, third: 0 } };
}

function describeSession(
  scenario: Scenario,
  takes: readonly { pair: ScenarioPair; position: { id: string }; file: string }[],
): Session {
  const [lengthM, widthM, heightM] = scenario.room.sizeM;
  return {
    schema: "carrywell/session/1",
    ...scenario.about,
    room: { name: scenario.roomName, lengthM, widthM, heightM },
    environment: {
      temperatureC: scenario.temperatureC,
      relativeHumidityPercent: scenario.relativeHumidityPercent,
    },
    microphone: { name: "simulated, flat", gainFixed: true },
    sweep: "sweep.json",
    monitors: scenario.pairs.map(({ id, role, name, placement }) => ({
      id,
      role,
      name,
      placement: { L: [...placement.L], R: [...placement.R] },
    })),
    positions: scenario.positions.map(({ id, kind, xyzM }) => ({ id, kind, xyzM: [...xyzM] })),
    recordings: takes.map(({ pair, position, file }) => ({
      file,
      monitor: pair.id,
      position: position.id,
      take: 1,
      kind: "sweep",
    })),
  };
}
