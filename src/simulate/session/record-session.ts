import type { Session } from "../../model.js";
import { addNoise, type RecordedNoise } from "../recording/add-noise.js";
import { rootMeanSquare } from "../recording/noise.js";
import { longestStretch } from "../recording.js";
import type { Scenario } from "../scenario.js";
import { recordCalibrator } from "./calibrator.js";
import { describeSession } from "./describe-session.js";
import { planRecordings, type PlannedRecording } from "./plan.js";
import type { Reel } from "./studio.js";

interface SimulatedFile {
  readonly file: string;
  readonly samples: Float64Array;
}

export interface SimulatedSession {
  readonly session: Session;
  /** In the order of the session. */
  readonly recordings: readonly SimulatedFile[];
  readonly calibrator: SimulatedFile | null;
}

/**
 * Records every take of a scenario from sounds that are known already: only leads and noise are new.
 *
 * So a studio may be measured many times, with other noise and other seeds, for little more than the noise costs.
 *
 * @param scenario - its recorder's noise and leads, and its seed, count here
 * @param reel - what is played
 * @param sound - gives what the recorder gets of a pair at a position, see `Studio`
 */
export function recordSession(
  scenario: Scenario,
  reel: Reel,
  sound: (pair: string, position: string) => Float64Array,
): SimulatedSession {
  const planned = planRecordings(scenario);
  return {
    session: describeSession(scenario, planned),
    recordings: planned.map((one) => ({
      file: one.file,
      samples: recordTake(scenario.recorder.noise, reel, one, sound(one.pair, one.position)),
    })),
    calibrator: recordCalibrator(scenario, reel.sampleRate),
  };
}

function recordTake(
  noise: RecordedNoise,
  reel: Reel,
  { leadS, seed }: Pick<PlannedRecording, "leadS" | "seed">,
  sound: Float64Array,
): Float64Array {
  const lead = Math.round(leadS * reel.sampleRate);
  const recording = new Float64Array(lead + sound.length);
  recording.set(sound, lead);
  const signalRms =
    noise.signalToNoiseDb === undefined ? 0 : rootMeanSquare(sound, ...longestStretch(reel, reel.sampleRate));
  addNoise(recording, reel.sampleRate, noise, seed, signalRms);
  return recording;
}
