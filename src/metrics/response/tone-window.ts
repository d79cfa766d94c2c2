import { forwardReal, transformSize } from "../../dsp/fft.js";
import { fractionalOctaveEdges, type LogPower, logPower, powerOf } from "../../dsp/log-power.js";
import { raisedCosine } from "../../dsp/raised-cosine.js";
import type { ImpulseResponse } from "../../model.js";

/** The window holds so many periods after the arrival, and this much more: a choice of ours. */
const PERIODS = 10;
const LEAST_AFTER_S = 0.005;
const LEAST_BEFORE_S = 0.001;
const PERIODS_BEFORE = 3;
const LOWEST_HZ = 16;

/**
 * Level of what is heard as tone: the response through a window that shortens with frequency.
 *
 * Ten periods and 5 ms after the arrival: half a second in the deep bass, where the room is heard with the loudspeaker,
 * 6 ms in the treble, where the first sound decides. Computed at octave steps of window length and joined on log
 * frequency.
 *
 * @param frequencyHz - where the level is wanted, shape `[n]`
 * @param fraction - smoothing, 1/fraction octave
 * @returns mean power, shape `[n]`
 */
export function toneWindowPower(impulse: ImpulseResponse, frequencyHz: Float64Array, fraction: number): Float64Array {
  const windows = new Map<number, LogPower>();
  const windowOf = (octave: number): LogPower => {
    const known = windows.get(octave);
    if (known) return known;
    const made = windowedPower(impulse, LOWEST_HZ * 2 ** octave);
    windows.set(octave, made);
    return made;
  };
  return frequencyHz.map((centreHz) => {
    const place = Math.max(0, Math.log2(centreHz / LOWEST_HZ));
    const octave = Math.floor(place);
    const share = place - octave;
    const edges = fractionalOctaveEdges(centreHz, fraction);
    const longer = windowOf(octave).mean(...edges);
    return share === 0 ? longer : (1 - share) * longer + share * windowOf(octave + 1).mean(...edges);
  });
}

function windowedPower(impulse: ImpulseResponse, centreHz: number): LogPower {
  const before = (LEAST_BEFORE_S + PERIODS_BEFORE / centreHz) * impulse.sampleRate;
  const after = (LEAST_AFTER_S + PERIODS / centreHz) * impulse.sampleRate;
  return gatedPower(impulse, before, after, 0.5);
}

/**
 * Power spectrum through a gate around the arrival: rises over all of `before`, falls over the last share of `after`.
 *
 * @param before - samples ahead of the arrival
 * @param after - samples behind it
 */
export function gatedPower(impulse: ImpulseResponse, before: number, after: number, fallShare: number): LogPower {
  const from = Math.max(0, Math.ceil(impulse.arrivalSample - before));
  const to = Math.min(impulse.samples.length, Math.floor(impulse.arrivalSample + after));
  const gated = new Float64Array(Math.max(1, to - from));
  for (let n = from; n < to; n++) {
    const t = n - impulse.arrivalSample;
    gated[n - from] = impulse.samples[n]! * raisedCosine(t < 0 ? 1 + t / before : (1 - t / after) / fallShare);
  }
  // Four times the gate: its spectrum is then smooth between bins.
  const size = transformSize(4 * gated.length);
  return logPower(powerOf(forwardReal(gated, size)), impulse.sampleRate / size);
}
