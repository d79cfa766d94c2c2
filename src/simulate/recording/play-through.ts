import { forwardReal, inverseReal, transformSize } from "../../dsp/fft.js";
import { bandLimit } from "../band-limit.js";
import { distort } from "../monitor/distortion.js";
import { responseOf, type Monitor } from "../monitor.js";
import { soundingRuns } from "../sounding-runs.js";

/** From one channel of the player to the microphone. */
export interface AcousticPath {
  readonly monitor: Monitor;
  /** Shape `[n]`, sample 0 the emission; `[1]` for no room at all. */
  readonly roomImpulse: Float64Array;
}

/** Silence that sets two sounds apart, seconds. */
const APART_S = 0.02;
/** What the monitor may ring on after the room, and what its band limit may ring ahead, seconds. */
const RING_S = 0.8;
const AHEAD_S = 0.05;

/**
 * Plays one channel through a monitor into a room and adds what the microphone gets to a recording.
 *
 * Every stretch of sound is convolved by itself, so silence costs nothing. The monitor's closed form holds up to 0.455
 * of the sample rate, where the band limit begins.
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
  const impulse = pathImpulse(path, sampleRate, ahead);
  for (const [from, to] of soundingRuns(driven, APART_S * sampleRate)) {
    const length = to - from + impulse.length;
    const size = transformSize(length);
    const spectrum = forwardReal(driven.subarray(from, to), size);
    multiply(spectrum, forwardReal(impulse, size));
    const heard = inverseReal(spectrum);
    const offset = startSample + from - ahead;
    const last = Math.min(length, recording.length - offset);
    for (let n = Math.max(0, -offset); n < last; n++) recording[offset + n]! += heard[n]!;
  }
}

/** The room's response as the monitor excites it, `ahead` samples late. */
function pathImpulse({ monitor, roomImpulse }: AcousticPath, sampleRate: number, ahead: number): Float64Array {
  const length = ahead + roomImpulse.length + Math.round(RING_S * sampleRate);
  const late = new Float64Array(ahead + roomImpulse.length);
  late.set(roomImpulse, ahead);
  const size = transformSize(length);
  const spectrum = forwardReal(late, size);
  const response = new Float64Array(size + 2);
  const responseAt = responseOf(monitor);
  for (let k = 0; k <= size / 2; k++) {
    const limit = bandLimit(k / size);
    const [real, imaginary] = responseAt((k * sampleRate) / size);
    response[2 * k] = limit * real;
    response[2 * k + 1] = limit * imaginary;
  }
  multiply(spectrum, response);
  return inverseReal(spectrum).subarray(0, length);
}

function multiply(spectrum: Float64Array, by: Float64Array): void {
  for (let k = 0; k < spectrum.length; k += 2) {
    const real = spectrum[k]!;
    const imaginary = spectrum[k + 1]!;
    spectrum[k] = real * by[k]! - imaginary * by[k + 1]!;
    spectrum[k + 1] = real * by[k + 1]! + imaginary * by[k]!;
  }
}
