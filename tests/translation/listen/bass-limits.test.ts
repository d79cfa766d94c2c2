import { describe, expect, it } from "vitest";

import { BANDS } from "../../../src/translation/bands.js";
import { type BassLine, bassListener } from "../../../src/translation/listen/bass-line.js";

const RATE = 12_000;
/** Full-scale power is this level on the system of these tests, which gives every frequency alike. */
const GAIN_DB = 90;
const SILENCE = BANDS.map(() => -200);

interface Sine {
  readonly hz: number;
  /** dB SPL on the system. */
  readonly levelDb: number;
  readonly fromS?: number;
  readonly toS?: number;
}

function heard(sines: readonly Sine[], { seconds = 3, noiseDb = SILENCE } = {}): BassLine {
  const samples = new Float32Array(seconds * RATE);
  for (const { hz, levelDb, fromS = 0, toS = seconds } of sines) {
    const amplitude = Math.SQRT2 * 10 ** ((levelDb - GAIN_DB) / 20);
    for (let n = fromS * RATE; n < toS * RATE; n++) samples[n]! += amplitude * Math.sin((2 * Math.PI * hz * n) / RATE);
  }
  const listener = bassListener(RATE, [{ curveDb: () => 0, gainDb: GAIN_DB, noiseDb }]);
  listener.push(samples, samples);
  return listener.result()[0]!;
}

describe("A partial of a bass note is heard on a system", () => {
  /** ISO 226:2003, Table 1: thresholds at the second and fourth partial of 50 Hz. */
  const thresholds = [
    { hz: 100, thresholdDb: 26.5 },
    { hz: 200, thresholdDb: 14.4 },
  ];

  // A Hann window's lobe holds all but 0.1 % of a sine; its strongest bin lies within 0.7 Hz, 0.1 dB of threshold.
  it.each([
    [4.7, 0],
    [5.3, 1],
  ])("%f dB over the threshold of hearing: in a share of %d of the frames", (overDb, share) => {
    const partials = thresholds.map(({ hz, thresholdDb }) => ({ hz, levelDb: thresholdDb + overDb }));
    expect(heard([{ hz: 50, levelDb: 50 }, ...partials]).pitchShare).toBe(share);
  });

  const partials = [660, 770].map((hz) => ({ hz, levelDb: 60 }));
  const note = [{ hz: 110, levelDb: 70 }, ...partials];

  it.each([
    [3.7, 1],
    [4.3, 0],
  ])("%f dB under another tone in the same band of hearing: in a share of %d of the frames", (underDb, share) => {
    // Their bands reach 48 and 54 Hz to either side (Glasberg and Moore 1990), a sine's lobe 11 Hz.
    const maskers = partials.map(({ hz, levelDb }) => ({ hz: hz + 30, levelDb: levelDb + underDb }));
    expect(heard([...note, ...maskers]).pitchShare).toBe(share);
  });

  it.each([
    [3.7, 1],
    [4.3, 0],
  ])("%f dB under the noise around the device in that band: in a share of %d of the frames", (underDb, share) => {
    // Pink noise: a band of 24.7 (4.37 f/kHz + 1) Hz holds lb(upper/lower) octaves, of which a third octave has a third.
    const noiseDb = BANDS.map(({ nominalHz }) => {
      const partial = nominalHz < 700 ? 660 : 770;
      const half = (24.7 * (0.00437 * partial + 1)) / 2;
      return 60 + underDb - 10 * Math.log10(3 * Math.log2((partial + half) / (partial - half)));
    });
    // 630 Hz is the third octave of the one, 800 Hz that of the other. The band is read to half a bin, 0.7 of 96 Hz: 0.05 dB.
    expect(heard(note, { noiseDb }).pitchShare).toBe(share);
  });
});

describe("A frame of the mix counts as bass", () => {
  // A note of 90 Hz with two partials for 3 s, loud enough to be the 95th percentile, then the bare sine for 3 s.
  const rich = [90, 180, 270].map((hz) => ({ hz, levelDb: 75, toS: 3 }));

  it.each([
    { downDb: 11.5, verdict: "weak", share: 0.5 },
    { downDb: 12.5, verdict: "heard", share: 1 },
  ])(
    "within 12 dB of the loud ones: bare ones $downDb dB under them leave the line $verdict",
    ({ downDb, verdict, share }) => {
      const line = heard([...rich, { hz: 90, levelDb: 75 - downDb, fromS: 3 }], { seconds: 6 });
      expect(line.verdict).toBe(verdict);
      // Of 63 frames two hold the change from one to the other.
      expect(Math.abs(line.pitchShare! - share)).toBeLessThan(2.5 / 63);
    },
  );
});
