import { forwardReal, inverseReal, transformSize } from "../../dsp/fft.js";
import { distort, soundingRuns } from "../monitor/distortion.js";
import { applyMonitor } from "../monitor/monitor-filter.js";
import type { Monitor } from "../monitor.js";

/** From one channel of the player to the microphone. */
export interface AcousticPath {
  readonly monitor: Monitor;
  /** Shape `[n]`, sample 0 the emission; `[1]` for no room at all. */
  readonly roomImpulse: Float64Array;
}

/** Silence that sets two sounds apart, seconds. */
const APART_S = 0.02;
/** What the monitor may ring on after the room, and what its band limit may ring ahead, seconds. */
const RING_S = 1;
const AHEAD_S = 0.05;

/**
 * Plays one channel through a monitor into a room and adds what the microphone gets to a recording.
 *
 * Every stretch of sound is distorted, filtered and convolved by itself, so silence costs nothing.
 *
 * @param played - shape `[n]`, full scale 1
 * @param sampleRate - Hz
 * @param path - monitor and room
 * @param recording - is added to; what falls outside is lost
 * @param startSample - where in the recording the first sample of `played` leaves the monitor
 */
export function playThrough(
  played: Float64Array,
  sampleRate: number,
  path: AcousticPath,
  recording: Float64Array,
  startSample: number,
): void {
  const driven = path.monitor.distortion ? distort(played, path.monitor.distortion) : played;
  const ahead = Math.round(AHEAD_S * sampleRate);
  const after = path.roomImpulse.length + Math.round(RING_S * sampleRate);
  for (const [from, to] of soundingRuns(driven, APART_S * sampleRate)) {
    const block = new Float64Array(ahead + to - from);
    block.set(driven.subarray(from, to), ahead);
    const size = transformSize(block.length + after);
    const spectrum = forwardReal(block, size);
    multiply(spectrum, forwardReal(path.roomImpulse, size));
    applyMonitor(spectrum, sampleRate, path.monitor);
    const heard = inverseReal(spectrum);
    const offset = startSample + from - ahead;
    const last = Math.min(block.length + after, recording.length - offset);
    for (let n = Math.max(0, -offset); n < last; n++) recording[offset + n]! += heard[n]!;
  }
}

function multiply(spectrum: Float64Array, by: Float64Array): void {
  for (let k = 0; k < spectrum.length; k += 2) {
    const real = spectrum[k]!;
    const imaginary = spectrum[k + 1]!;
    spectrum[k] = real * by[k]! - imaginary * by[k + 1]!;
    spectrum[k + 1] = real * by[k + 1]! + imaginary * by[k]!;
  }
}
