import { expect, it } from "vitest";
import type { Excitation } from "../../src/impulse/excitation.js";
import type { SweepBreak } from "../../src/impulse/sweep-break.js";
import { lostBetween } from "../../src/pipeline/recorder-clock.js";
import { refuseBroken } from "../../src/pipeline/refuse-broken.js";

const excitation = { growthS: 1, sweptHz: [20, 20_000] } as unknown as Excitation;
const sweep = (zeroS: number, broken: SweepBreak | null, jumpsS: readonly number[] = []) => ({
  zeroS,
  broken,
  jumps: jumpsS.map((atS) => ({ sample: 48_000 * atS, persists: true })),
});

function refusal(...noticed: ReturnType<typeof sweep>[]): string | null {
  try {
    refuseBroken("one.wav", 48_000, noticed, excitation);
    return null;
  } catch (error) {
    return (error as Error).message;
  }
}

it("A sweep that falls into two parts is refused with the place and what is missing", () => {
  // 1 kHz is played ln 50 s after 20 Hz.
  const lost = { frequencyHz: 1000, belowLaterS: 0.085, belowAtS: 0 };
  expect(refusal(sweep(2, lost), sweep(9, null))).toMatch(/^Samples are missing at about 5\.9 s \(85 ms\)/);
  // What arrives late was played when the arrival, which is that of the rest, has it so much later.
  expect(refusal(sweep(2, { ...lost, belowAtS: 0.3 }))).toMatch(/at about 6\.2 s/);
  expect(refusal(sweep(2, { ...lost, belowLaterS: -0.02 }))).toMatch(/^Samples came twice at about 5\.9 s \(20 ms\)/);
});

it("A jump near the break tells the place to the millisecond, one far from it does not", () => {
  const lost = { frequencyHz: 1000, belowLaterS: 0.085, belowAtS: 0 };
  expect(refusal(sweep(2, lost, [3, 5.8]))).toMatch(/^Samples are missing at 5\.800 s/);
  expect(refusal(sweep(2, lost, [3]))).toMatch(/at about 5\.9 s/);
  // A sweep of 30 s takes a second for a third octave.
  const slow = { ...excitation, growthS: 4.35 };
  const heard = sweep(2, lost, [18.4]);
  expect(() => {
    refuseBroken("one.wav", 48_000, [heard], slow);
  }).toThrow(/at 18\.400 s/);
});

it("Bass that comes late on every sweep is the system's", () => {
  const bass = { frequencyHz: 112, belowLaterS: 0.02, belowAtS: 0.02 };
  expect(refusal(sweep(2, bass), sweep(9, { frequencyHz: 89, belowLaterS: 0.022, belowAtS: 0.022 }))).toBeNull();
  expect(refusal(sweep(2, bass), sweep(9, { frequencyHz: 89, belowLaterS: 0.05, belowAtS: 0.05 }))).not.toBeNull();
});

const MARKERS_APART = 26 * 48_000;
const played = [3 * 48_000, 15 * 48_000];
const shifted = (by: readonly number[]) =>
  played.map((atSample, n) => ({ atSample, arrivalSample: atSample + by[n]! }));
const between = (ppm: number, by: readonly number[]) =>
  lostBetween({ ppm, uncertaintyPpm: 0.1, correct: true }, shifted(by), MARKERS_APART, 48_000);

it("Samples lost in the silence are told from a slow clock by the distance of the sweeps", () => {
  const lost = 1024;
  const ppm = (-1e6 * lost) / MARKERS_APART;
  expect(between(ppm, [0, -lost])).toBeCloseTo(lost / 48_000, 9);
  expect(between(ppm, [0, 0])).toBeCloseTo(lost / 48_000, 9);
  // Of a clock each sweep has its share.
  expect(between(ppm, [0, played[1]! * ppm * 1e-6 - played[0]! * ppm * 1e-6])).toBeNull();
});

it("Left and right at unlike distances are no loss, nor is what is shorter than 6 ms between the markers", () => {
  const ppm = 300;
  const flight = 0.002 * 48_000;
  expect(between(ppm, [0, (played[1]! - played[0]!) * ppm * 1e-6 + flight])).toBeNull();
  expect(between((-1e6 * 240) / MARKERS_APART, [0, -240])).toBeNull();
});
