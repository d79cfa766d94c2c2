import { mkdtemp, readdir, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, it } from "vitest";
import { runDemo } from "../../src/cli/demo.js";
import { calibratorLevel } from "../../src/recording/calibrator.js";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { sessionSchema } from "../../src/schema/session.js";
import { sweepRecipeSchema } from "../../src/schema/sweep-recipe.js";

async function lookAt(from: string): Promise<void> {
  const session = sessionSchema.parse(JSON.parse(await readFile(join(from, "session.json"), "utf8")));
  const recipe = sweepRecipeSchema.parse(JSON.parse(await readFile(join(from, session.sweep), "utf8")));
  expect(session.monitors.map(({ role }) => role)).toEqual(["main", "nearfield"]);
  for (const { id } of session.monitors) {
    const own = session.recordings.filter(({ monitor }) => monitor === id);
    expect(new Set(own.map(({ position }) => position)).size).toBe(5);
    expect(own.filter(({ position }) => position === "mix").map(({ take }) => take)).toEqual([1, 2]);
  }
  for (const { file } of session.recordings) {
    const audio = decodeWav(await readFile(join(from, file)), file);
    expect(audio.encoding).toContain("24");
    expect(audio.sampleRate).toBe(recipe.sampleRate);
    const last = recipe.events.at(-1)!;
    expect(audio.channels[0]!.length).toBeGreaterThan(last.atSample + last.samples);
    // Between -12 and -3 dBFS: as an engineer would set the gain.
    expect(peakDb(audio.channels[0]!)).toBeGreaterThan(-12);
    expect(peakDb(audio.channels[0]!)).toBeLessThan(-3);
  }
  const [mix, ...others] = session.positions.map(({ xyzM }) => xyzM!);
  for (const place of others) {
    expect(place[2]).toBe(mix![2]);
    expect(Math.hypot(place[0] - mix![0], place[1] - mix![1])).toBeLessThan(0.2);
  }
  const { file, soundPressureLevelDb } = session.microphone!.level!;
  const tone = decodeWav(await readFile(join(from, file)), file);
  const { amplitude, toneHz } = calibratorLevel({ samples: tone.channels[0]!, sampleRate: tone.sampleRate }, file);
  expect(soundPressureLevelDb).toBe(94);
  expect(toneHz).toBeCloseTo(1000, 2);
  // The recorder's noise, 100 dB under the tone, moves the mean level by far less than a hundredth of a dB.
  expect(20 * Math.log10(amplitude)).toBeCloseTo(-6, 2);
  expect((await readdir(from)).some((name) => name.endsWith(".part"))).toBe(false);
}

/** The same monitors at three of the same places, stated where they were, another day. */
async function lookAtAfter(before: string, after: string): Promise<void> {
  const [old, now] = await Promise.all(
    [before, after].map(async (from) =>
      sessionSchema.parse(JSON.parse(await readFile(join(from, "session.json"), "utf8"))),
    ),
  );
  expect(now!.monitors).toEqual(old!.monitors);
  expect(now!.positions).toEqual(old!.positions.slice(0, 3));
  expect(now!.date).not.toBe(old!.date);
  expect(now!.recordings).toHaveLength(8);
}

function peakDb(samples: ArrayLike<number>): number {
  let peak = 0;
  for (let n = 0; n < samples.length; n++) peak = Math.max(peak, Math.abs(samples[n]!));
  return 20 * Math.log10(peak);
}

it("the demo hands a whole session to the report: mains and nearfields at five places, two takes at the mix position, a calibrator; then the treated studio to the comparison", async () => {
  const folder = await mkdtemp(join(tmpdir(), "carrywell-demo-"));
  try {
    let reported = 0;
    let compared = 0;
    const folders = await runDemo(folder, {
      report: async (from, to) => {
        reported++;
        expect(to).toBe(join(folder, "report"));
        await lookAt(from);
      },
      compare: async (before, after, to) => {
        compared++;
        expect([before, to]).toEqual([join(folder, "report"), join(folder, "comparison")]);
        await lookAtAfter(join(folder, "session"), after);
      },
    });
    expect(folders.session).toBe(join(folder, "session"));
    expect([reported, compared]).toEqual([1, 1]);
  } finally {
    await rm(folder, { recursive: true });
  }
});
