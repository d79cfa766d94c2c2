import { join } from "node:path";

import type { Listening } from "../schema/listening.js";
import { openSound } from "./sound-file.js";
import { createWave } from "./wave-file.js";

const SILENCE_S = 0.6;
const FADE_S = 0.02;

/**
 * Writes a short excerpt of every version, one after the other with a pause between.
 *
 * @param folder - holds the versions, and gets `sequence.wav`
 */
export async function writeSequence(
  folder: string,
  versions: readonly { readonly id: string; readonly file: string }[],
  sampleRate: number,
  fromS: number,
  durationS: number,
): Promise<Listening["sequence"]> {
  const file = "sequence.wav";
  const count = Math.round(durationS * sampleRate);
  const pause = Math.round(SILENCE_S * sampleRate);
  const frames = versions.length * (count + pause) - pause;
  const writer = await createWave(join(folder, file), { channels: 2, frames, sampleRate, format: "pcm24" });
  for (const [index, version] of versions.entries()) {
    if (index > 0) await writer.write([new Float32Array(pause), new Float32Array(pause)]);
    const reader = await openSound(join(folder, version.file), version.file);
    const sides = await reader.read(Math.round(fromS * sampleRate), count);
    await reader.close();
    for (const side of sides) fadeEnds(side, Math.round(FADE_S * sampleRate));
    await writer.write(sides);
  }
  await writer.close();
  const parts = versions.map(({ id }, index) => ({ id, atS: (index * (count + pause)) / sampleRate }));
  return { file, fromS, durationS, parts };
}

function fadeEnds(samples: Float32Array, length: number): void {
  const last = samples.length - 1;
  for (let n = 0; n < Math.min(length, samples.length); n++) {
    const weight = 0.5 - 0.5 * Math.cos((Math.PI * n) / length);
    samples[n]! *= weight;
    samples[last - n]! *= weight;
  }
}
