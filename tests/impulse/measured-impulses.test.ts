import { existsSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { arrivalEnvelope } from "../../src/metrics/reflections/energy-time.js";
import { findReflections } from "../../src/metrics/reflections/find-reflections.js";
import type { ImpulseResponse } from "../../src/model.js";
import { captureImpulse } from "../../src/pipeline/capture-impulse.js";
import { decodeWav } from "../../src/recording/decode-wav.js";

/** Measured rooms; figures from the SOURCE.md beside them. */
const folder = new URL("../../../shared/data/", import.meta.url);

function impulses(file: string): { arrivalS: number; impulse: ImpulseResponse }[] {
  const audio = decodeWav(new Uint8Array(readFileSync(new URL(file, folder))), file);
  return audio.channels.map((samples) => {
    const recording = { file, monitor: "m", position: "p", take: 1, kind: "impulse" as const, channel: "L" as const };
    const take = captureImpulse(recording, { samples, sampleRate: audio.sampleRate }, null);
    return { arrivalS: take.arrivalInFileS!, impulse: take.impulse };
  });
}

describe.skipIf(!existsSync(folder))("measured impulse responses (not run: ../shared/data is absent)", () => {
  it.each(["LR_M+000", "LR_M+030", "LR_M-030", "LR_M+180", "LR_U+030"])(
    "of the listening room, %s, begin at 5.8 to 6.1 ms at the ear that faces the loudspeaker",
    (name) => {
      const arrivals = impulses(`listening-room/${name}.wav`).map(({ arrivalS }) => 1000 * arrivalS);
      // Half the last digit printed.
      expect(Math.min(...arrivals)).toBeGreaterThan(5.75);
      expect(Math.min(...arrivals)).toBeLessThan(6.15);
    },
  );

  it("of the office have their first reflection from the room 8.72 ms after the direct sound", () => {
    for (const { impulse } of impulses("office/room_a_az000_16k.wav")) {
      const found = findReflections(arrivalEnvelope(impulse), 343).filter(({ delayS }) => delayS > 0.002);
      const strongest = found.reduce((a, b) => (b.levelDb > a.levelDb ? b : a));
      // Published from the peaks of the whole response, found here in 1-8 kHz: a quarter of a millisecond, a period of 4 kHz.
      expect(Math.abs(1000 * strongest.delayS - 8.72)).toBeLessThan(0.25);
    }
  });

  it("of a head without a room arrive with the first of its peaks, not with the strongest, which is the ear's", () => {
    const file = "office/pseudo_anechoic_az000_48k.wav";
    const samples = decodeWav(new Uint8Array(readFileSync(new URL(file, folder))), file).channels[0]!;
    const strongest = samples.reduce((best, value, n) => (Math.abs(value) > Math.abs(samples[best]!) ? n : best), 0);
    for (const { arrivalS } of impulses(file)) {
      // Read off the samples by themselves: a peak at 5.27 ms, the strongest at 5.44 ms; two samples.
      expect(Math.abs(1000 * arrivalS - 5.27)).toBeLessThan(0.042);
    }
    expect(strongest / 48).toBeCloseTo(5.44, 2);
  });
});
