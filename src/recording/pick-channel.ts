import { InputError } from "../errors.js";
import type { DecodedAudio, Signal } from "../model.js";

/** Against the loudest channel, a channel under this carries nothing that was meant to be recorded. */
const EMPTY_SHARE = 1e-4;

/**
 * Picks the microphone's channel of a recording.
 *
 * @param fileChannel - 1-based; undefined takes the only channel that carries sound, or the first of equal ones
 * @param loopback - 1-based channel of the electrical signal, never taken for the microphone
 * @throws {InputError} if the file has no such channel, or several different ones and none was named
 */
export function pickChannel(
  audio: DecodedAudio,
  fileChannel: number | undefined,
  loopback: number | undefined,
  name: string,
): Signal {
  const { channels, sampleRate } = audio;
  if (fileChannel !== undefined) {
    const samples = channels[fileChannel - 1];
    if (samples) return { samples, sampleRate };
    throw new InputError(`The recording has ${counted(channels.length)}, not a channel ${fileChannel}.`, {
      where: name,
      remedy: `give a channel from 1 to ${channels.length} in session.json`,
    });
  }
  const candidates = channels.filter((_, index) => index + 1 !== loopback);
  if (candidates.length === 1) return { samples: candidates[0]!, sampleRate };
  const peaks = candidates.map(peakOf);
  const loudest = Math.max(...peaks);
  const sounding = candidates.filter((_, index) => peaks[index]! > EMPTY_SHARE * loudest);
  const first = sounding[0] ?? candidates[0];
  if (first && sounding.every((samples) => samples === first || isEqual(samples, first))) {
    return { samples: first, sampleRate };
  }
  throw new InputError(
    `The recording has ${counted(channels.length)} and session.json does not say which is the microphone.`,
    { where: name, remedy: 'add "fileChannel": 1 (or the channel that the microphone was on) to this recording' },
  );
}

function peakOf(samples: Float32Array): number {
  let peak = 0;
  for (const value of samples) peak = Math.max(peak, Math.abs(value));
  return peak;
}

function counted(channels: number): string {
  return channels === 1 ? "one channel" : `${channels} channels`;
}

function isEqual(a: Float32Array, b: Float32Array): boolean {
  return a.length === b.length && a.every((value, n) => value === b[n]);
}
