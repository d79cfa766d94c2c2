import { InputError } from "../errors.js";
import type { Finding, Recording, Signal } from "../model.js";
import { chooseChannel } from "../recording/choose-channel.js";
import { readTrack } from "../recording/read-tracks.js";
import type { SoundReader } from "../recording/sound-reader.js";
import { findReel } from "./find-reel.js";
import { lengthFromFile, longRecording, severalReels } from "./findings.js";
import type { Played } from "../impulse/played.js";

/** What a recording holds that matters. */
export interface Heard {
  /** The microphone's channel. */
  readonly signal: Signal;
  /** The electrical loopback's channel. */
  readonly loopback: Signal | null;
  /** Where in the file both begin. */
  readonly fromS: number;
  readonly findings: readonly Finding[];
}

/** A recording that lasts so much longer than what was played is searched for it, and the rest is left alone. A choice of ours. */
const LONGER_BY_S = 120;
/** An impulse response, a calibrator's tone or a sweep of more samples (almost six minutes at 48 kHz) is something else. A choice of ours. */
const LONGEST_WHOLE = 2 ** 24;

/**
 * Hears a recording: of a long one, only what is around the sweeps that were played.
 *
 * Memory is that of the sweeps with two minutes, however long the file.
 *
 * @param played - null where the recording is an impulse response
 * @throws {InputError} if the file cannot be read, or it is not clear which of its channels is the microphone
 */
export async function hearRecording(sound: SoundReader, recording: Recording, played: Played | null): Promise<Heard> {
  const { file, fileChannel, loopback } = recording;
  const { sampleRate, frames } = sound;
  const notes = sound.lengthFromFile ? [lengthFromFile(file, frames / sampleRate)] : [];
  const loopbackChannel = loopback === undefined ? null : await chooseChannel(sound, loopback, undefined, file);
  if (played === null) {
    return { signal: await hearWhole(sound, fileChannel, loopback, file), loopback: null, fromS: 0, findings: notes };
  }
  const channel = await chooseChannel(sound, fileChannel, loopback, file);
  const reelS =
    Math.max(...played.timeline.map(({ atSample, samples }) => atSample + samples)) / played.excitation.sampleRate;
  let part = { from: 0, to: frames };
  if (frames > (reelS + LONGER_BY_S) * sampleRate) {
    const found = await findReel(sound, channel, played, reelS);
    part = found;
    const [first, ...others] = found.heardAtS;
    if (first !== undefined) notes.push(longRecording(file, frames / sampleRate, first));
    if (first !== undefined && others.length > 0) notes.push(severalReels(file, found.heardAtS));
  }
  const track = async (index: number): Promise<Signal> => ({
    samples: await readTrack(sound, index, part.from, part.to),
    sampleRate,
  });
  return {
    signal: await track(channel),
    loopback: loopbackChannel === null ? null : await track(loopbackChannel),
    fromS: part.from / sampleRate,
    findings: notes,
  };
}

/**
 * Hears a whole file, which may not be long.
 *
 * @throws {InputError} as `hearRecording`
 */
export async function hearWhole(
  sound: SoundReader,
  fileChannel: number | undefined,
  loopback: number | undefined,
  name: string,
): Promise<Signal> {
  const { sampleRate, frames } = sound;
  if (frames > LONGEST_WHOLE) {
    const minutes = (samples: number): string => (samples / sampleRate / 60).toFixed(1);
    throw new InputError(
      `The file lasts ${minutes(frames)} minutes; up to ${minutes(LONGEST_WHOLE)} are read of one like this.`,
      { where: name, remedy: "cut out the part that is meant" },
    );
  }
  return { samples: await readTrack(sound, await chooseChannel(sound, fileChannel, loopback, name)), sampleRate };
}
