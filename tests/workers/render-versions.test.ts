import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { afterAll, describe, expect, it } from "vitest";

import { findMix } from "../../src/files/mix-file.js";
import { decodeWav } from "../../src/recording/decode-wav.js";
import { encodeWav } from "../../src/recording/encode-wav.js";
import { phone } from "../../src/standards/playback-classes/phone.js";
import { classLevelDb } from "../../src/standards/playback-classes/playback-class.js";
import { BANDS } from "../../src/translation/bands.js";
import { toneFilter } from "../../src/translation/listen/tone-filter.js";
import { filterVersions } from "../../src/workers/filter-versions.js";
import { writeVersions } from "../../src/workers/write-versions.js";

const RATE = 48_000;
const folder = mkdtempSync(join(tmpdir(), "carrywell-render-"));
afterAll(() => {
  rmSync(folder, { recursive: true, force: true });
});

interface Reference {
  readonly at: readonly number[];
  readonly samples: readonly number[];
}
const reference = JSON.parse(readFileSync(new URL("render-reference.json", import.meta.url), "utf8")) as Reference;

/** The noise of tests/scripts/render-reference.py, which made the reference. */
function noise(frames: number): [Float64Array, Float64Array] {
  const sides = [new Float64Array(frames), new Float64Array(frames)] as [Float64Array, Float64Array];
  let state = 1;
  for (let n = 0; n < frames; n++) {
    for (const side of sides) {
      state = (Math.imul(1_664_525, state) + 1_013_904_223) >>> 0;
      side[n] = (state >>> 17) / 32_768 - 0.5;
    }
  }
  return sides;
}

async function rendered(
  sides: readonly Float64Array[],
  taps: readonly [Float64Array, Float64Array],
  mono: boolean,
): Promise<readonly Float32Array[]> {
  const path = join(folder, "mix.wav");
  const output = join(folder, "out.wav");
  writeFileSync(path, encodeWav(sides, RATE, "pcm16"));
  const versions = [{ id: "one", mono, taps, waitAt: join(folder, "waiting") }];
  const [filtered] = await filterVersions(await findMix(path), versions, () => undefined);
  await writeVersions([{ samples: filtered!.samples, gain: 1, path: output }], RATE, () => undefined);
  return decodeWav(readFileSync(output), "out.wav").channels;
}

describe("A rendered mix", () => {
  it("is the convolution that scipy computes with a filter that it designed, within -90 dB", async () => {
    const tone = toneFilter(
      BANDS.map(({ nominalHz }) => classLevelDb(phone, nominalHz, "typical")),
      RATE,
    )!;
    const sides = noise(100_000);
    const [left, right] = await rendered(sides, [tone, tone], true);
    const worst = Math.max(...reference.at.map((n, k) => Math.abs(left![n]! - reference.samples[k]!)));
    expect(20 * Math.log10(worst)).toBeLessThan(-90);
    // Half a step of 24 bits and the rounding to 32-bit floats, of what waits and of what is read back: -138 dB, one more for the filters.
    expect(20 * Math.log10(worst)).toBeLessThan(-132);
    expect(right).toEqual(left);
  });

  it("is the mix itself, sample for sample, where nothing is filtered", async () => {
    const one = new Float64Array([1]);
    const sides = noise(60_001);
    const [left, right] = await rendered(sides, [one, one], false);
    expect(left).toHaveLength(60_001);
    // Half a step of 24 bits.
    for (const [side, given] of [left!, right!].entries()) {
      const worst = given.reduce((most, value, n) => Math.max(most, Math.abs(value - sides[side]![n]!)), 0);
      expect(worst).toBeLessThanOrEqual(2 ** -24);
    }
  });

  it("keeps left and right apart where each has a filter of its own", async () => {
    const sides = noise(50_000);
    const late = new Float64Array(101);
    late[100] = 0.5;
    const [left, right] = await rendered(sides, [new Float64Array([0.25]), late], false);
    expect(left![30_000]).toBeCloseTo(0.25 * sides[0][30_000]!, 6);
    expect(right![30_000]).toBeCloseTo(0.5 * sides[1][29_900]!, 6);
    expect(right![99]).toBe(0);
  });
});
