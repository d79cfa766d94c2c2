import type { Session } from "../model.js";
import type { Monitor } from "./monitor.js";
import type { RecordedNoise } from "./recording/add-noise.js";
import type { Octaves } from "./room/octave-split.js";
import type { Point, ShoeboxRoom } from "./room/room-path.js";
import { recordSession, type SimulatedSession } from "./session/record-session.js";
import { openStudio, type Reel } from "./session/studio.js";

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
  /** What the session says of things in the room; a pair's `desk` is what is heard of them. */
  readonly panels?: Session["panels"];
  readonly positions: readonly ScenarioPosition[];
  readonly recorder: {
    readonly gainDb: number;
    /** How much slower the player's clock runs than the recorder's; positive: the recording lasts longer. */
    readonly clockDriftPpm: number;
    readonly noise: RecordedNoise;
    /** From the start of the recording to the start of the reel, one for each recording in turn, seconds. */
    readonly leadsS: readonly number[];
    readonly tailS: number;
    /** A sound calibrator at the microphone, recorded at the same gain. */
    readonly calibrator?: Calibrator;
  };
  /** Of the noise: recordings have seeds in a row from here. */
  readonly seed: number;
}

interface Calibrator {
  readonly soundPressureLevelDb: number;
  /** Peak of its sine in the recording. */
  readonly peakDbfs: number;
  readonly durationS: number;
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

interface ScenarioPosition {
  readonly id: string;
  readonly kind: "mix" | "near" | "room";
  readonly xyzM: Point;
  /** What the session says of it, where the microphone did not stand quite there. */
  readonly statedM?: Point;
  /** Recordings of each pair at this place; 1 if it is not stated. */
  readonly takes?: number;
}

/**
 * Measures a studio that does not exist: as many recordings of the reel as each position asks for, for each pair.
 *
 * The loudspeakers look at the mix position. Takes of one place differ by their lead and their noise alone: neither the
 * microphone nor the air moves between them, so a real repeat agrees less well. The same scenario and reel always give
 * the same samples.
 *
 * @param scenario - the studio
 * @param reel - what is played, full scale 1, shape `[n]` each
 * @returns a session that names the reel's recipe `sweep.json`, and the samples of each recording it names
 * @throws {RangeError} if the scenario has no mix position or contradicts the limits of the models
 */
export function simulateSession(scenario: Scenario, reel: Reel): SimulatedSession {
  const studio = openStudio(scenario, reel);
  return recordSession(scenario, reel, (pair, position) => studio.sound(pair, position));
}
