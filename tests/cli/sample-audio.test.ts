import { readdir, readFile } from "node:fs/promises";
import { describe, expect, it } from "vitest";
import { sampleSession } from "../../src/cli/sample-audio.js";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { sessionSchema } from "../../src/schema/session.js";
import { sweepRecipeSchema } from "../../src/schema/sweep-recipe.js";

const folder = new URL("../../sample-audio/", import.meta.url);
const json = async (file: string): Promise<unknown> => JSON.parse(await readFile(new URL(file, folder), "utf8"));

describe("the sample session", () => {
  const { simulated, recipe } = sampleSession();

  it("is the one that the simulator makes today", async () => {
    expect(sessionSchema.parse(await json("session.json"))).toEqual(simulated.session);
    expect(sweepRecipeSchema.parse(await json("sweep.json"))).toEqual(recipe);
    for (const { file, samples } of [...simulated.recordings, simulated.calibrator!]) {
      const stored = decodeWav(await readFile(new URL(file, folder)), file).channels[0]!;
      expect(stored.length).toBe(samples.length);
      let worst = 0;
      for (let n = 0; n < stored.length; n++) worst = Math.max(worst, Math.abs(stored[n]! - samples[n]!));
      // Half a step of 16 bits by rounding; another platform's sines may move a sample by 1e-12.
      expect(worst).toBeLessThan(2 ** -16 + 1e-9);
    }
  });

  it("holds nothing else but its line of explanation", async () => {
    const recordings = [...simulated.recordings, simulated.calibrator!].map(({ file }) => file);
    expect((await readdir(folder)).sort()).toEqual(["README.md", ...recordings, "session.json", "sweep.json"].sort());
  });
});
