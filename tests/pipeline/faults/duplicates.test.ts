import { describe, expect, it } from "vitest";
import type { Recording } from "../../../src/model.js";
import type { Take } from "../../../src/pipeline/capture.js";
import { withoutDuplicates } from "../../../src/pipeline/faults/duplicates.js";
import { fingerprint } from "../../../src/recording/fingerprint.js";
import { levelFacts } from "../../../src/recording/level-facts.js";
import { Random } from "../../../src/simulate/random.js";

const RATE = 48_000;
const SILENCE_S = 0.5;

/** Half a second of faint noise, then half a second of a loud tone. */
function sound(seed: number, gain = 1): Float64Array {
  const noise = new Random(seed).fillNormal(new Float64Array(RATE));
  return noise.map((value, n) => gain * (2e-5 * value + (n > SILENCE_S * RATE ? 0.2 * Math.sin(0.1 * n) : 0)));
}

const in16Bits = (samples: Float64Array): Float64Array => samples.map((value) => Math.round(value * 32_768) / 32_768);

/** A take as far as duplicates ask. */
function take(file: string, samples: Float64Array, more: Partial<Recording> = {}): Take {
  const recording = { file, monitor: "mains", position: "mix", take: 1, ...more } as Recording;
  return {
    recording,
    fingerprint: fingerprint(samples, RATE, SILENCE_S * RATE),
    peakDbfs: levelFacts({ samples, sampleRate: RATE }).peakDbfs,
  } as Take;
}

describe("recordings of one loudspeaker at one place", () => {
  it("are two where their silences are strangers, though the loud sound is the same", () => {
    const { takes, findings } = withoutDuplicates([take("a.wav", sound(1)), take("b.wav", sound(2))]);
    expect(takes).toHaveLength(2);
    expect(findings).toEqual([]);
  });

  it("are one where the second is a copy: the copy is left out", () => {
    const { takes, findings } = withoutDuplicates([take("a.wav", sound(1)), take("b.wav", sound(1))]);
    expect(takes.map(({ recording }) => recording.file)).toEqual(["a.wav"]);
    expect(findings).toMatchObject([{ code: "duplicate-take", severity: "reject", recordings: ["b.wav"], value: 0 }]);
  });

  it("are one where the copy is 6.02 dB softer and in 16 bits, whose rounding is louder than the silence", () => {
    const { findings } = withoutDuplicates([take("a.wav", sound(1)), take("b.wav", in16Bits(sound(1, 0.5)))]);
    // Half a step of 16 bits at a peak of 0.1: 20 lg(1 + 1 / 6554) = 0.0013 dB.
    expect(Math.abs(findings[0]!.value! - 20 * Math.log10(0.5))).toBeLessThan(0.0014);
    expect(findings[0]!.message).toContain("6.0 dB apart in gain");
  });
});

describe("one recording that stands for two places", () => {
  it("is used for neither, since nothing says which is right", () => {
    const { takes, findings } = withoutDuplicates([
      take("a.wav", sound(1)),
      take("b.wav", sound(1), { position: "left" }),
      take("c.wav", sound(3)),
    ]);
    expect(takes.map(({ recording }) => recording.file)).toEqual(["c.wav"]);
    expect(findings).toMatchObject([{ recordings: ["a.wav", "b.wav"] }]);
  });

  it("is refused for two sides of one loudspeaker as well", () => {
    const { takes } = withoutDuplicates([
      take("l.wav", sound(1), { channel: "L" }),
      take("r.wav", sound(1), { channel: "R" }),
    ]);
    expect(takes).toEqual([]);
  });
});
