import { forwardReal, inverseReal, transformSize } from "../../dsp/fft.js";
import { bandLimit } from "../band-limit.js";
import { distort } from "../monitor/distortion.js";
import { responseOf, type Monitor } from "../monitor.js";
import { soundingRuns } from "../sounding-runs.js";

/** What one loudspeaker gives of its channel, ready to be heard through any room whose response is short enough. */
export interface PlayedSound {
  readonly roomSamples: number;
  readonly runs: readonly {
    /** Where the run begins in what is played, less what the band limit rings ahead. */
    readonly from: number;
    readonly length: number;
    /** Half spectrum as in `dsp/fft`, shape `[size + 2]`. */
    readonly spectrum: Float64Array;
  }[];
}

/** Silence that sets two sounds apart, seconds. */
const APART_S = 0.02;
/** What the monitor may ring on after the room, and what its band limit may ring ahead, seconds. */
const RING_S = 0.8;
const AHEAD_S = 0.05;

/**
 * Passes one channel through a monitor, and keeps each stretch of sound as a spectrum.
 *
 * Every stretch is dealt with by itself, so silence costs nothing. The monitor's closed form holds up to 0.455 of the
 * sample rate, where the band limit begins.
 *
 * @param played - shape `[n]`, full scale 1
 * @param sampleRate - Hz
 * @param monitor - its distortion comes first, then its response
 * @param roomSamples - length of the longest room response that it shall be heard through
 */
export function playedSound(
  played: Float64Array,
  sampleRate: number,
  monitor: Monitor,
  roomSamples: number,
): PlayedSound {
  const driven = monitor.distortion ? distort(played, monitor.distortion) : played;
  const ahead = Math.round(AHEAD_S * sampleRate);
  const responses = new Map<number, Float64Array>();
  const runs = soundingRuns(driven, APART_S * sampleRate).map(([from, to]) => {
    const length = ahead + to - from + roomSamples + Math.round(RING_S * sampleRate);
    const late = new Float64Array(ahead + to - from);
    late.set(driven.subarray(from, to), ahead);
    const size = transformSize(length);
    const spectrum = forwardReal(late, size);
    const response = responses.get(size) ?? limitedResponse(monitor, sampleRate, size);
    responses.set(size, response);
    multiply(spectrum, response);
    return { from: from - ahead, length, spectrum };
  });
  return { roomSamples, runs };
}

/**
 * Adds to a recording what the microphone gets of a sound in a room.
 *
 * @param sound - of one loudspeaker
 * @param roomImpulse - shape `[n]`, sample 0 the emission; `[1]` for no room at all
 * @param recording - is added to; what falls outside is lost
 * @param startSample - where in the recording the first sample of what is played leaves the loudspeaker
 * @throws {RangeError} if the room's response is longer than the sound was made for
 */
export function hearInRoom(
  sound: PlayedSound,
  roomImpulse: Float64Array,
  recording: Float64Array,
  startSample: number,
): void {
  if (roomImpulse.length > sound.roomSamples) {
    throw new RangeError(`roomImpulse of ${roomImpulse.length} samples must be no longer than ${sound.roomSamples}`);
  }
  const rooms = new Map<number, Float64Array>();
  for (const { from, length, spectrum } of sound.runs) {
    const size = spectrum.length - 2;
    const room = rooms.get(size) ?? forwardReal(roomImpulse, size);
    rooms.set(size, room);
    const product = spectrum.slice();
    multiply(product, room);
    const heard = inverseReal(product);
    const offset = startSample + from;
    const last = Math.min(length, recording.length - offset);
    for (let n = Math.max(0, -offset); n < last; n++) recording[offset + n]! += heard[n]!;
  }
}

function limitedResponse(monitor: Monitor, sampleRate: number, size: number): Float64Array {
  const response = new Float64Array(size + 2);
  const responseAt = responseOf(monitor);
  for (let k = 0; k <= size / 2; k++) {
    const limit = bandLimit(k / size);
    const [real, imaginary] = responseAt((k * sampleRate) / size);
    response[2 * k] = limit * real;
    response[2 * k + 1] = limit * imaginary;
  }
  return response;
}

function multiply(spectrum: Float64Array, by: Float64Array): void {
  for (let k = 0; k < spectrum.length; k += 2) {
    const real = spectrum[k]!;
    const imaginary = spectrum[k + 1]!;
    spectrum[k] = real * by[k]! - imaginary * by[k + 1]!;
    spectrum[k + 1] = real * by[k + 1]! + imaginary * by[k]!;
  }
}
