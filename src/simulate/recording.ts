import { withClockDrift } from "./recording/clock-drift.js";
import { pinkNoise, rootMeanSquare, whiteNoise } from "./recording/noise.js";
import { playThrough, type AcousticPath } from "./recording/play-through.js";
import { soundingRuns } from "./sounding-runs.js";

/** Levels are RMS, dB re a root mean square of full scale, 1. */
export interface RecordedNoise {
  /** 20 Hz to 20 kHz. */
  readonly pinkDbRms?: number;
  /** Pink noise by its distance from the recorded sound's longest stretch, RMS to RMS. */
  readonly signalToNoiseDb?: number;
  readonly whiteDbRms?: number;
  readonly hum?: { readonly frequencyHz: number; readonly dbRms: number };
}

export interface RecordingOptions {
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
    if (path && sound) playThrough(sound, sampleRate, path, clean, lead);
  }
  const gain = 10 ** (gainDb / 20);
  for (let n = 0; n < clean.length; n++) clean[n]! *= gain;
  const recording = withClockDrift(clean, sampleRate, clockDriftPpm);
  const [from, to] = longestStretch(played, sampleRate);
  addNoise(recording, sampleRate, options.noise ?? {}, seed, rootMeanSquare(clean, lead + from, lead + to));
  return recording;
}

/** Where the longest unbroken sound begins and ends in what is played. */
function longestStretch({ L, R }: RecordingOptions["played"], sampleRate: number): [number, number] {
  const runs = [L, R].flatMap((channel) => (channel ? soundingRuns(channel, 0.02 * sampleRate) : []));
  return runs.reduce<[number, number]>((best, run) => (run[1] - run[0] > best[1] - best[0] ? run : best), [0, 0]);
}

function addNoise(
  recording: Float64Array,
  sampleRate: number,
  { pinkDbRms = -Infinity, signalToNoiseDb = Infinity, whiteDbRms = -Infinity, hum }: RecordedNoise,
  seed: number,
  signalRms: number,
): void {
  const add = (noise: Float64Array): void => {
    for (let n = 0; n < recording.length; n++) recording[n]! += noise[n]!;
  };
  const pinkRms = Math.hypot(10 ** (pinkDbRms / 20), signalRms * 10 ** (-signalToNoiseDb / 20));
  if (pinkRms > 0) add(pinkNoise(recording.length, sampleRate, pinkRms, seed));
  // The next seed but one thousand: recordings of one session are usually seeded in a row.
  if (whiteDbRms > -Infinity) add(whiteNoise(recording.length, 10 ** (whiteDbRms / 20), seed + 1000));
  if (hum) {
    const peak = Math.SQRT2 * 10 ** (hum.dbRms / 20);
    const step = (2 * Math.PI * hum.frequencyHz) / sampleRate;
    for (let n = 0; n < recording.length; n++) recording[n]! += peak * Math.sin(step * n);
  }
}
