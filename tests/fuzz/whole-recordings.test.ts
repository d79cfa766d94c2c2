import { afterAll, describe, expect, it } from "vitest";

import { labourHere, prepareInputs } from "../../src/pipeline.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { sessionSchema } from "../../src/schema/session.js";
import { recordedReel, shortRecipe } from "../cli/small-session.js";
import { memoryFiles, recipeFile } from "../pipeline/in-memory-session.js";
import { seededRandom } from "../recording/seeded-random.js";
import { flacFile } from "../recording/sound-files.js";
import { floatBytes, wavFile } from "../recording/wav-file.js";
import { firstSeed, howMany } from "./how-many.js";
import { mutate } from "./mutate.js";

/** A recording of a reel, damaged, on its whole way to impulse responses. */

const { sampleRate } = shortRecipe;
const reel = recordedReel();
type Random = () => number;

/** What may happen to sound: each takes the samples from one place to another. */
const happenings: readonly ((sound: Float64Array, from: number, to: number, random: Random) => Float64Array)[] = [
  (sound, from, to) => sound.fill(0, from, to),
  (sound, from, to) => sound.fill(0.9, from, to),
  (sound, from, to) => sound.copyWithin(from, to),
  (sound, from) => sound.subarray(from),
  (sound, _, to) => sound.subarray(0, to),
  (sound, from, to) => sound.subarray(from, Math.max(to, from + 1)),
  (sound, from, to, random) => sound.map((value, n) => (n >= from && n < to ? 2 * random() - 1 : value)),
  (sound, from, to) => sound.map((value, n) => (n >= from && n < to ? -value : value)),
  (sound, from, to) => sound.map((value, n) => (n >= from && n < to ? Math.sign(value) : value)),
  (sound, from) => sound.map((value, n) => (n === from ? 900 : value)),
  (sound) => sound.map((value) => 1e-6 * value),
  (sound) => sound.map((value) => 500 * value),
  (sound) => sound.map((value) => value + 0.5),
  (sound, from) => new Float64Array(sound.length).fill(0.5, from, from + 1),
  (sound) => Float64Array.from({ length: 3 * sound.length }, (_, n) => sound[n % sound.length]!),
];

function recording(n: number): { name: string; bytes: Uint8Array } {
  const random = seededRandom(firstSeed + n);
  const place = (): number => Math.floor(random() * reel.length);
  const places = [place(), place()].sort((a, b) => a - b);
  const happening = happenings[n % happenings.length]!;
  const sound = happening(reel.slice(), places[0]!, places[1]!, random);
  const made = files[Math.floor(random() * files.length)]!;
  const file = { name: made.name, bytes: made.encode(sound) };
  return random() < 0.7 ? file : { name: file.name, bytes: mutate(file, random) };
}

/** One file at a time: four of each would be most of the memory that is looked at below. */
const files: readonly { name: string; encode: (sound: Float64Array) => Uint8Array }[] = [
  { name: "reel.wav", encode: (sound) => encodeWav([sound], sampleRate, "pcm24") },
  { name: "float.wav", encode: (sound) => wavFile({ tag: 3, bits: 32, data: floatBytes(Array.from(sound), 32) }) },
  { name: "stereo.wav", encode: (sound) => encodeWav([sound, new Float64Array(sound.length)], sampleRate, "pcm16") },
  { name: "reel.flac", encode: (sound) => flacFile({ channels: [stepsOf(sound)], bits: 16, block: 4096 }) },
];

const stepsOf = (sound: Float64Array): number[] =>
  Array.from(sound, (value) => Math.max(-32_768, Math.min(32_767, Math.round(32_767 * value))));

/** Measured: 231 MB in 300 recordings, the program that runs the tests included. */
const MOST_MEMORY_MB = 400;

const ends = new Map<string, number>();
let slowestMs = 0;

describe("A damaged recording of a reel", { timeout: 3_600_000 }, () => {
  it("gives finite impulse responses, or a finding that says why not", async () => {
    for (let n = 0; n < howMany(20, 300); n++) {
      const { name: file, bytes } = recording(n);
      const kind = n % 5 === 4 ? "impulse" : "sweep";
      const session = sessionSchema.parse({
        schema: "carrywell/session/1",
        sweep: "sweep.json",
        monitors: [{ id: "mains", role: "main" }],
        positions: [{ id: "mix", kind: "mix" }],
        recordings: [
          { file, monitor: "mains", position: "mix", kind, ...(kind === "impulse" ? { channel: "L" } : {}) },
        ],
      });
      const inputs = await prepareInputs(
        session,
        memoryFiles({ "sweep.json": recipeFile(shortRecipe), [file]: bytes }),
      );
      const start = performance.now();
      const { takes, findings } = await labourHere(inputs).capture(session.recordings[0]!);
      slowestMs = Math.max(slowestMs, performance.now() - start);
      const what = `${file}, seed ${firstSeed} + ${n}`;
      expect(takes.length > 0 || findings.some(({ severity }) => severity === "reject"), what).toBe(true);
      for (const { impulse } of takes) expect(impulse.samples.every(Number.isFinite), what).toBe(true);
      expect(JSON.stringify(findings), what).not.toMatch(/(NaN|Infinity) [a-zA-Z%]/);
      for (const code of takes.length > 0 ? ["measured"] : findings.map((finding) => finding.code)) {
        ends.set(code, (ends.get(code) ?? 0) + 1);
      }
    }
  });

  afterAll(() => {
    const counted = [...ends].map(([code, count]) => `${code} ${count}`).join(", ");
    const memoryMb = process.resourceUsage().maxRSS / 1024;
    console.log(
      `whole recordings: ${counted}; slowest ${slowestMs.toFixed(0)} ms, most memory ${memoryMb.toFixed(0)} MB`,
    );
    expect(ends.get("measured") ?? 0).toBeGreaterThan(0);
    expect(slowestMs).toBeLessThan(60_000);
    expect(memoryMb).toBeLessThan(MOST_MEMORY_MB);
  });
});
