import type { SoundReader } from "./sound-reader.js";

/** So many samples of all channels together are in memory at once: 16 MiB. */
const STRETCH_SAMPLES = 2 ** 22;

/**
 * Reads some channels a stretch at a time, from one frame to another.
 *
 * @param wanted - indices from 0
 */
export async function* readStretches(
  sound: SoundReader,
  from: number,
  to: number,
  wanted: readonly number[],
): AsyncGenerator<{ readonly at: number; readonly tracks: readonly Float32Array[] }> {
  const stretch = Math.floor(STRETCH_SAMPLES / sound.channels);
  for (let at = from; at < to; at += stretch) {
    yield { at, tracks: await sound.read(at, Math.min(stretch, to - at), wanted) };
  }
}

/**
 * Reads one channel from one frame to another.
 *
 * @param from - may lie before the file's beginning, and `to` behind its end: there is nothing there
 */
export async function readTrack(
  sound: SoundReader,
  channel: number,
  from = 0,
  to = sound.frames,
): Promise<Float32Array> {
  const first = Math.max(0, from);
  const end = Math.max(first, Math.min(sound.frames, to));
  const samples = new Float32Array(end - first);
  for await (const { at, tracks } of readStretches(sound, first, end, [channel])) samples.set(tracks[0]!, at - first);
  return samples;
}
