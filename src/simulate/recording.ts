import type { Monitor } from "./monitor.js";
import { addNoise, type RecordedNoise } from "./recording/add-noise.js";
import { withClockDrift } from "./recording/clock-drift.js";
import { rootMeanSquare } from "./recording/noise.js";
import { hearInRoom, playedSound } from "./recording/played-sound.js";
import { soundingRuns } from "./sounding-runs.js";

/** From one channel of the player to the microphone. */
interface AcousticPath {
  readonly monitor: Monitor;
  /** Shape `[n]`, sample 0 the emission; `[1]` for no room at all. */
  readonly roomImpulse: Float64Array;
}

interface RecordingOptions {
  readonly played: { readonly L: Float64Array | null; readonly R: Float64Array | null };
  readonly sampleRate: number;
  readonly paths: { readonly L?: AcousticPath; readonly R?: AcousticPath };
  /** Silence recorded before the player starts, seconds. */
  readonly leadS?: number;
  /** Recorded after the player has ended, seconds. */
  readonly tailS?: number;
  /** Positive: the recording lasts longer than what was played. */
  readonly clockDriftPpm?: number;
  readonly gainDb?: number;
  readonly noise?: RecordedNoise;
  /** Whole number; the same seed makes the same noise. */
  readonly seed?: number;
}

/**
 * Records what one microphone gets of one or two loudspeakers in a room.
 *
 * Each channel is distorted, filtered by its monitor and sounds in the room; the sum is amplified, read by a clock
 * that may drift, and joined by noise. Left out: the microphone's own response, the converter's steps, clipping (the
 * writer of a file clips), and whatever happens by accident.
 *
 * @param options - see each field; a channel without sound or without path is silent
 * @returns shape `[round((lead + played + tail) * (1 + drift))]`, recorded full scale 1
 * @throws {RangeError} if nothing is played
 */
export function simulateRecording(options: RecordingOptions): Float64Array {
  const { played, sampleRate, paths, leadS = 0, tailS = 0, clockDriftPpm = 0, gainDb = 0, seed = 1 } = options;
  const playedLength = Math.max(played.L?.length ?? 0, played.R?.length ?? 0);
  if (playedLength === 0) throw new RangeError("nothing is played: both channels are empty");
  const lead = Math.round(leadS * sampleRate);
  const clean = new Float64Array(lead + playedLength + Math.round(tailS * sampleRate));
  for (const channel of ["L", "R"] as const) {
    const path = paths[channel];
    const sound = played[channel];
    if (!path || !sound) continue;
    const { monitor, roomImpulse } = path;
    hearInRoom(playedSound(sound, sampleRate, monitor, roomImpulse.length), roomImpulse, clean, lead);
  }
  const gain = 10 ** (gainDb / 20);
  for (let n = 0; n < clean.length; n++) clean[n]! *= gain;
  const recording = withClockDrift(clean, sampleRate, clockDriftPpm);
  const [from, to] = longestStretch(played, sampleRate);
  const signalRms = rootMeanSquare(clean, lead + from, lead + to);
  // Without drift the recording is the clean one itself, which nobody else holds.
  addNoise(recording, sampleRate, options.noise ?? {}, seed, signalRms);
  return recording;
}

/** Where the longest unbroken sound begins and ends in what is played. */
export function longestStretch({ L, R }: RecordingOptions["played"], sampleRate: number): [number, number] {
  const runs = [L, R].flatMap((channel) => (channel ? soundingRuns(channel, 0.02 * sampleRate) : []));
  return runs.reduce<[number, number]>((best, run) => (run[1] - run[0] > best[1] - best[0] ? run : best), [0, 0]);
}
