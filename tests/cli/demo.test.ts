import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { runDemo } from "../../src/cli/demo.js";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { sessionSchema } from "../../src/schema/session.js";
import { sweepRecipeSchema } from "../../src/schema/sweep-recipe.js";

it("the demo hands a whole session to the report: mains and nearfields, each recorded in 24 bits and never clipped", async () => {
  const folder = await mkdtemp(join(tmpdir(), "carrywell-demo-"));
  try {
    let reported = 0;
    const folders = await runDemo(folder, async (from, to) => {
      reported++;
      expect(to).toBe(join(folder, "report"));
      const session = sessionSchema.parse(JSON.parse(await readFile(join(from, "session.json"), "utf8")));
      const recipe = sweepRecipeSchema.parse(JSON.parse(await readFile(join(from, session.sweep), "utf8")));
      expect(session.monitors.map(({ role }) => role)).toEqual(["main", "nearfield"]);
      expect(session.recordings.length).toBe(4);
      for (const { file } of session.recordings) {
        const audio = decodeWav(await readFile(join(from, file)), file);
        expect(audio.encoding).toContain("24");
        expect(audio.sampleRate).toBe(recipe.sampleRate);
        const last = recipe.events.at(-1)!;
        expect(audio.channels[0]!.length).toBeGreaterThan(last.atSample + last.samples);
        let peak = 0;
        for (const value of audio.channels[0]!) peak = Math.max(peak, Math.abs(value));
        // Between -12 and -3 dBFS: as an engineer would set the gain.
        expect(20 * Math.log10(peak)).toBeGreaterThan(-12);
        expect(20 * Math.log10(peak)).toBeLessThan(-3);
      }
      expect((await readdir(from)).some((file) => file.endsWith(".part"))).toBe(false);
    });
    expect(folders.session).toBe(join(folder, "session"));
    expect(reported).toBe(1);
  } finally {
    await rm(folder, { recursive: true });
  }
});
