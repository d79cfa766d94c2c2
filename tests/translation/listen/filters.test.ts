import { describe, expect, it } from "vitest";

import { car } from "../../../src/standards/playback-classes/car.js";
import { phone } from "../../../src/standards/playback-classes/phone.js";
import { classLevelDb } from "../../../src/standards/playback-classes/playback-class.js";
import { BANDS } from "../../../src/translation/bands.js";
import { roomFilter } from "../../../src/translation/listen/room-filter.js";
import { toneFilter } from "../../../src/translation/listen/tone-filter.js";
import { seededRandom } from "../../recording/seeded-random.js";
import { levelOfTaps } from "../level-of-taps.js";

describe("The tone of a system as a filter", () => {
  it.each([
    { device: car, rate: 44_100 },
    { device: car, rate: 48_000 },
    { device: phone, rate: 96_000 },
  ])("keeps to the curve of a $device.id at every midband at $rate Hz", ({ device, rate }) => {
    const curve = BANDS.map(({ nominalHz }) => classLevelDb(device, nominalHz, "typical"));
    const taps = toneFilter(curve, rate)!;
    for (const [k, { nominalHz, exactHz }] of BANDS.entries()) {
      // 0.17 s tell 6 Hz apart: at 25 Hz, where the curve bends into its level below, that rounds the corner by 0.2 dB.
      const most = nominalHz === 25 ? 0.25 : 0.1;
      expect(Math.abs(levelOfTaps(taps, exactHz, rate) - curve[k]!)).toBeLessThan(most);
    }
  });

  it("keeps the nearest value that is known where the curve has gaps", () => {
    const taps = toneFilter(
      BANDS.map(({ nominalHz }) => (nominalHz === 1000 ? -6 : null)),
      48_000,
    )!;
    expect(taps[0]).toBeCloseTo(10 ** (-6 / 20), 12);
    expect(
      toneFilter(
        BANDS.map(() => null),
        48_000,
      ),
    ).toBeNull();
  });
});

describe("A room as a filter", () => {
  const rate = 48_000;
  const random = seededRandom(5);
  const arrivalSample = 4800;
  /** A direct sound and a decay of 0.3 s, down to noise 70 dB below. */
  const samples = Float64Array.from({ length: 2 * rate }, (_, n) => {
    const t = (n - arrivalSample) / rate;
    const decay = t > 0 ? 0.1 * 10 ** ((-3 * t) / 0.3) * (random() - 0.5) : 0;
    return (n === arrivalSample ? 1 : 0) + decay + 3e-6 * (random() - 0.5);
  });
  const impulse = { samples, sampleRate: rate, arrivalSample };

  it("begins 5 ms ahead of the direct sound and ends where the noise begins", () => {
    const taps = roomFilter(impulse, null);
    const strongest = taps.indexOf(Math.max(...taps));
    expect(strongest).toBe(0.005 * rate);
    // 90 dB under the direct sound's power per sample are reached after 0.3 to 0.4 s; the knee is looked for in steps of 20 ms.
    expect(taps.length / rate).toBeGreaterThan(0.25);
    expect(taps.length / rate).toBeLessThan(0.8);
    expect(Math.abs(taps.at(-1)!)).toBeLessThan(1e-9);
  });

  it("loses what is called neutral", () => {
    const undo = toneFilter(
      BANDS.map(({ nominalHz }) => (nominalHz < 1000 ? -6 : 0)),
      rate,
    );
    const [plain, less] = [roomFilter(impulse, null), roomFilter(impulse, undo)];
    // The curve at 100 Hz, by the filter's own 0.1 dB.
    expect(levelOfTaps(less, 100, rate) - levelOfTaps(plain, 100, rate)).toBeCloseTo(-6, 1);
    expect(levelOfTaps(less, 8000, rate) - levelOfTaps(plain, 8000, rate)).toBeCloseTo(0, 1);
  });
});
