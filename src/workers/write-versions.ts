import { rm } from "node:fs/promises";

import { playWaiting } from "../files/waiting-samples.js";
import { createWave } from "../files/wave-file.js";
import type { MatchedVersion } from "./render-job.js";

/** Writes versions whose samples wait, one after the other, each with its gain; what waited is removed. */
export async function writeVersions(
  versions: readonly MatchedVersion[],
  sampleRate: number,
  onProgress: (frames: number) => void,
): Promise<void> {
  for (const { samples, gain, path } of versions) {
    const writer = await createWave(path, { channels: 2, frames: samples.frames, sampleRate, format: "pcm24" });
    await playWaiting(samples, async (channels) => {
      const [left, right] = channels.map((side) => amplified(side, gain));
      await writer.write([left!, right ?? left!]);
      onProgress(left!.length);
    });
    await writer.close();
    await rm(samples.path);
  }
}

/** As 64-bit floats: rounded once, to the steps of the file. */
function amplified(samples: Float32Array, gain: number): Float64Array {
  const louder = new Float64Array(samples.length);
  for (let n = 0; n < samples.length; n++) louder[n] = gain * samples[n]!;
  return louder;
}
