import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { afterAll, describe, expect, it } from "vitest";

import type { SweepRecipe } from "../../src/model.js";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { renderReel } from "../../src/sweep/render.js";
import { parseRecipe } from "../../src/sweep/parse-recipe.js";
import { carrywell } from "./run.js";

const root = mkdtempSync(join(tmpdir(), "carrywell-sweep-"));
afterAll(() => {
  rmSync(root, { recursive: true, force: true });
});

function recipeOf(folder: string): SweepRecipe {
  return parseRecipe(readFileSync(join(folder, "sweep.json"), "utf8"), "sweep.json");
}

describe("The sweep command", () => {
  it("writes the default sweep: 48 kHz, 24 bits, 20 Hz to 20 kHz, -12 dBFS, 10 s, and a caution", async () => {
    const folder = join(root, "default");
    const { code, out } = await carrywell(["sweep", "--out", folder]);
    expect(code).toBe(0);
    expect(readdirSync(folder).sort()).toEqual(["reel.wav", "sweep-L.wav", "sweep-R.wav", "sweep.json"]);
    for (const word of [
      /start with the monitor gain turned down/,
      /ear\s+protection/,
      /Tweeters/,
      /rest between|without rest/,
    ]) {
      expect(out).toMatch(word);
    }
    expect(recipeOf(folder)).toMatchObject({ sampleRate: 48_000, startHz: 20, endHz: 20_000, levelDbfs: -12 });
    const reel = decodeWav(readFileSync(join(folder, "reel.wav")), "reel.wav");
    expect(reel.encoding).toBe("24-bit PCM");
    expect(reel.channels.length).toBe(2);
    // -12 dBFS is 0.2512; the highest sample of a long sweep reaches its crest to 1e-4, and 24 bits round by 6e-8.
    const peak = reel.channels[0]!.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    expect(Math.abs(peak - 10 ** (-12 / 20))).toBeLessThan(1e-4 * 0.2512 + 6e-8);
  });

  it.each(["pcm16", "pcm24", "float32"])(
    "writes left into channel 1 and right into channel 2 as %s",
    async (format) => {
      const folder = join(root, format);
      const args = ["--duration", "0.5", "--start", "100", "--rate", "96000", "--gap", "0.5", "--format", format];
      const { code, out } = await carrywell(["sweep", "--out", folder, "--json", "--quiet", ...args]);
      expect(code).toBe(0);
      expect(JSON.parse(out)).toMatchObject({ recipe: { format, sampleRate: 96_000, gapS: 0.5 } });
      const recipe = recipeOf(folder);
      const { L, R } = renderReel(recipe);
      const { channels } = decodeWav(readFileSync(join(folder, "reel.wav")), "reel.wav");
      // Half a step of the format, or of a 32-bit float below 0.25 (2^-27), and the float's own rounding on reading.
      const step = { pcm16: 2 ** -15, pcm24: 2 ** -23, float32: 2 ** -26 }[format]!;
      for (const [played, stored] of [
        [L, channels[0]!],
        [R, channels[1]!],
      ] as const) {
        let worst = 0;
        for (let n = 0; n < played.length; n++) worst = Math.max(worst, Math.abs(played[n]! - stored[n]!));
        expect(worst).toBeLessThanOrEqual(step / 2 + 2 ** -27);
      }
    },
  );

  it("keeps the other loudspeaker silent in the file for one alone", async () => {
    const folder = join(root, "alone");
    await carrywell(["sweep", "--out", folder, "--duration", "0.5", "--start", "100", "--quiet"]);
    for (const [name, silent] of [
      ["sweep-L.wav", 1],
      ["sweep-R.wav", 0],
    ] as const) {
      const { channels } = decodeWav(readFileSync(join(folder, name)), name);
      expect(channels).toHaveLength(2);
      expect(channels[silent]!.every((sample) => sample === 0)).toBe(true);
      expect(channels[1 - silent]!.some((sample) => Math.abs(sample) > 0.2)).toBe(true);
    }
  });

  it("ends at 0.45 of a low sample rate unless told otherwise", async () => {
    const folder = join(root, "44k");
    const { code } = await carrywell(["sweep", "--out", folder, "--rate", "44100", "--duration", "1", "--quiet"]);
    expect(code).toBe(0);
    expect(recipeOf(folder).endHz).toBeCloseTo(0.45 * 44_100, 9);
  });

  it("repeats itself without complaint, but replaces another sweep only when told to", async () => {
    const folder = join(root, "twice");
    const run = (...args: string[]): ReturnType<typeof carrywell> =>
      carrywell(["sweep", "--out", folder, "--duration", "0.5", "--start", "100", "--quiet", ...args]);
    expect((await run()).code).toBe(0);
    expect((await run()).code).toBe(0);
    const refused = await run("--level", "-20");
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/already holds another reel\.wav.*\n.*\n.*--force/);
    expect(recipeOf(folder).levelDbfs).toBe(-12);
    expect((await run("--level", "-20", "--force")).code).toBe(0);
    expect(recipeOf(folder).levelDbfs).toBe(-20);
  });
});
