import { InputError } from "../errors.js";
import { readStretches } from "./read-tracks.js";
import type { SoundReader } from "./sound-reader.js";

/** Against the loudest channel, a channel under this carries nothing that was meant to be recorded. */
const EMPTY_SHARE = 1e-4;

/** What is known of a channel once it was heard from beginning to end. */
interface ChannelFacts {
  readonly index: number;
  peak: number;
  /** Two running sums over its bits: channels of equal sums hold the same sound. */
  sums: [number, number];
}

/**
 * Chooses the microphone's channel of a recording.
 *
 * @param fileChannel - 1-based; undefined takes the only channel that carries sound, or the first of equal ones
 * @param loopback - 1-based channel of the electrical signal, never taken for the microphone
 * @returns index from 0
 * @throws {InputError} if the file has no such channel, or several different ones and none was named
 */
export async function chooseChannel(
  sound: SoundReader,
  fileChannel: number | undefined,
  loopback: number | undefined,
  name: string,
): Promise<number> {
  const { channels } = sound;
  if (fileChannel !== undefined) {
    if (fileChannel <= channels) return fileChannel - 1;
    throw new InputError(`The recording has ${counted(channels)}, not a channel ${fileChannel}.`, {
      where: name,
      remedy: `give a channel from 1 to ${channels} in session.json`,
    });
  }
  const candidates = Array.from({ length: channels }, (_, index) => index).filter((index) => index + 1 !== loopback);
  if (candidates.length === 1) return candidates[0]!;
  const facts = await hearChannels(sound, candidates);
  const loudest = Math.max(...facts.map(({ peak }) => peak));
  const sounding = facts.filter(({ peak }) => peak > EMPTY_SHARE * loudest);
  const first = sounding[0] ?? facts[0];
  if (first && sounding.every(({ sums }) => sums[0] === first.sums[0] && sums[1] === first.sums[1])) return first.index;
  throw new InputError(
    `The recording has ${counted(channels)} and session.json does not say which is the microphone.`,
    { where: name, remedy: 'add "fileChannel": 1 (or the channel that the microphone was on) to this recording' },
  );
}

async function hearChannels(sound: SoundReader, channels: readonly number[]): Promise<ChannelFacts[]> {
  const facts = channels.map((index): ChannelFacts => ({ index, peak: 0, sums: [0, 0] }));
  for await (const { tracks } of readStretches(sound, 0, sound.frames, channels)) {
    for (const [n, samples] of tracks.entries()) hearOn(facts[n]!, samples);
  }
  return facts;
}

function hearOn(facts: ChannelFacts, samples: Float32Array): void {
  const bits = new Int32Array(samples.buffer, samples.byteOffset, samples.length);
  let { peak } = facts;
  let [a, b] = facts.sums;
  for (let n = 0; n < samples.length; n++) {
    peak = Math.max(peak, Math.abs(samples[n]!));
    a = Math.imul(a ^ bits[n]!, 16_777_619);
    b = (Math.imul(b, 31) + bits[n]!) | 0;
  }
  facts.peak = peak;
  facts.sums = [a, b];
}

function counted(channels: number): string {
  return channels === 1 ? "one channel" : `${channels} channels`;
}
