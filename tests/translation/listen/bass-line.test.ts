import { describe, expect, it } from "vitest";

import { PLAYBACK_CLASSES } from "../../../src/standards/playback-classes.js";
import { classLevelDb } from "../../../src/standards/playback-classes/playback-class.js";
import { BANDS } from "../../../src/translation/bands.js";
import { type BassLine, bassListener } from "../../../src/translation/listen/bass-line.js";
import { deviceNoiseDb } from "../../../src/translation/listen/device-noise.js";
import { mixSpectrum } from "../../../src/translation/listen/mix-spectrum.js";
import { devicePowers, gainToLevel } from "../../../src/translation/listen/played-level.js";

const RATE = 48_000;
const SECONDS = 6;

function sound(at: (seconds: number) => number): Float32Array {
  return Float32Array.from({ length: SECONDS * RATE }, (_, n) => at(n / RATE));
}

/** Harmonics up to 8 kHz of a falling ramp: amplitude 1/n. */
function saw(hz: number): (seconds: number) => number {
  const last = Math.floor(8000 / hz);
  return (t) => {
    let sum = 0;
    for (let n = 1; n <= last; n++) sum += Math.sin(2 * Math.PI * n * hz * t) / n;
    return 0.2 * sum;
  };
}

function onClass(id: string, samples: Float32Array): BassLine {
  const device = PLAYBACK_CLASSES.find((one) => one.id === id)!;
  const spectrum = mixSpectrum(RATE);
  spectrum.push(samples, samples);
  const powers = devicePowers(spectrum.bands(), true);
  const curve = BANDS.map(({ nominalHz }) => classLevelDb(device, nominalHz, "typical"));
  const gainDb = gainToLevel(powers, curve, device.levelDba.typical)!;
  const listener = bassListener(RATE, [
    {
      curveDb: (hz) => classLevelDb(device, hz, "typical") ?? 0,
      gainDb,
      noiseDb: deviceNoiseDb(device.id, device.levelDba.noise),
    },
  ]);
  listener.push(samples, samples);
  return listener.result()[0]!;
}

// The three tests are those that the collected evidence names for the criterion (section 8 there).
describe("A bass line on a small loudspeaker", () => {
  it.each([
    ["tv", 45],
    ["laptop", 82.4],
    ["wireless", 55],
    ["phone", 110],
  ])("is heard on a %s when a saw of %d Hz plays it", (id, hz) => {
    const { verdict, pitchShare } = onClass(id, sound(saw(hz)));
    expect(verdict).toBe("heard");
    expect(pitchShare).toBe(1);
  });

  it.each(["phone", "laptop", "wireless", "tv"])("is lost on a %s when it is a sine of 45 Hz", (id) => {
    const { verdict, pitchShare, colourShare } = onClass(
      id,
      sound((t) => 0.5 * Math.sin(2 * Math.PI * 45 * t)),
    );
    expect({ verdict, pitchShare, colourShare }).toEqual({ verdict: "lost", pitchShare: 0, colourShare: 0 });
  });

  it.each(["phone", "laptop", "wireless", "tv"])(
    "is lost on a %s when its sine has nothing but a third harmonic of 10 %",
    (id) => {
      // Two audible partials are asked for; there is one.
      const at = (t: number): number => 0.5 * Math.sin(2 * Math.PI * 45 * t) + 0.05 * Math.sin(2 * Math.PI * 135 * t);
      expect(onClass(id, sound(at)).verdict).toBe("lost");
    },
  );

  it("has no pitch on a phone below 55 Hz, whatever its partials", () => {
    // The typical phone passes from about 390 Hz: the ninth partial of 41.2 Hz, above the seventh that carry pitch.
    const { pitchShare, colourShare } = onClass(
      "phone",
      sound((t) => quietPartials(t)),
    );
    expect(pitchShare).toBe(0);
    expect(colourShare).toBe(1);
  });

  it("is not judged where there is no bass at all", () => {
    expect(
      onClass(
        "tv",
        new Float32Array(SECONDS * RATE).map((_, n) => Math.sin(n)),
      ),
    ).toMatchObject({ verdict: null });
  });
});

/** A note of 41.2 Hz with partials 9 and 10 only. */
function quietPartials(t: number): number {
  const partial = (n: number): number => Math.sin(2 * Math.PI * 41.2 * n * t);
  return 0.3 * partial(1) + 0.02 * (partial(9) + partial(10));
}
