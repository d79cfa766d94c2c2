import { describe, expect, it } from "vitest";
import { synthesiseMarker } from "../../src/dsp/sweep-signal.js";
import { markerAgreement } from "../../src/impulse/marker-agreement.js";
import { noiseDensity } from "../../src/impulse/noise.js";
import type { ImpulseResponse } from "../../src/model.js";
import { filtered, whiteNoise } from "../known-recording.js";

const sampleRate = 48_000;
const marker = { sampleRate, levelDbfs: -12 };
const played = synthesiseMarker(marker);
const STARTS = [sampleRate, 3 * sampleRate];
const event = { kind: "marker", channel: "L", atSample: 0, samples: played.length } as const;
const found = STARTS.map((startSample) => ({ event, startSample, clarityDb: null }));
/** The response to the sweep: a direct sound alone. */
const impulse: ImpulseResponse = {
  samples: new Float64Array(sampleRate).fill(1, 4800, 4801),
  sampleRate,
  arrivalSample: 4800,
  polarity: 1,
  sweptHz: [20, 20_000],
  noise: null,
};

type Gain = (hz: number) => number;

/** Both markers, each heard through a response of its own, over noise 80 dB under them. */
function agreement(...gains: readonly [Gain, Gain]): number | null {
  const samples = whiteNoise(5 * sampleRate, 21).map((value) => 1e-5 * value);
  STARTS.forEach((start, n) => {
    const heard = filtered(played, sampleRate, (hz) => ({ re: gains[n]!(hz), im: 0 }));
    for (let k = 0; k < played.length; k++) samples[start + k]! += heard[k]!;
  });
  const signal = { samples, sampleRate };
  return markerAgreement(signal, impulse, found, marker, noiseDensity(signal, 0, 0.9 * sampleRate)!);
}

const decibels = (db: number): number => 10 ** (db / 20);

describe("Markers against the sweep", () => {
  it("tell the decibels that something gave to short sounds alone", () => {
    // The noise is 60 dB and more under the marker in every band: 0.01 dB.
    expect(
      agreement(
        () => decibels(0.5),
        () => decibels(0.5),
      ),
    ).toBeCloseTo(0.5, 1);
    expect(
      agreement(
        () => decibels(-0.5),
        () => decibels(-0.5),
      ),
    ).toBeCloseTo(-0.5, 1);
  });

  it("tell what falls steadily with frequency, as a compressor that follows the bass leaves it", () => {
    const falling = (hz: number): number => decibels(Math.max(0, 2 - 0.6 * Math.log2(Math.max(hz, 500) / 500)));
    expect(agreement(falling, falling)).toBeGreaterThan(0.5);
  });

  it("tell nothing of a person who stood near for both, half a decibel on the mean", () => {
    // The comb of a reflection 2.7 ms late and 10 dB softer.
    const comb = (hz: number): number => decibels(0.4 + 2 * Math.cos(2 * Math.PI * hz * 0.0027));
    expect(agreement(comb, comb)).toBe(0);
  });

  it("tell nothing when they contradict each other", () => {
    expect(
      agreement(
        () => decibels(0.5),
        () => decibels(-0.5),
      ),
    ).toBeNull();
  });
});
