import { describe, expect, it } from "vitest";
import { sessionSchema } from "../../src/schema/session.js";
import { demoStudio } from "../../src/simulate/demo-studio.js";
import { rootMeanSquare } from "../../src/simulate/recording/noise.js";
import { deskReflection } from "../../src/simulate/room/desk-reflection.js";
import { type Scenario, simulateSession } from "../../src/simulate/scenario.js";
import { recordSession } from "../../src/simulate/session/record-session.js";
import { openStudio } from "../../src/simulate/session/studio.js";

const RATE = 44_100;
const click = (atSample: number): Float64Array => {
  const samples = new Float64Array(RATE / 2);
  samples[atSample] = 0.5;
  return samples;
};
/** A short listening time without noise or drift, so that the direct sound can be found by eye. */
const brief: Scenario = {
  ...demoStudio,
  responseS: 0.05,
  recorder: { gainDb: 0, clockDriftPpm: 0, noise: {}, leadsS: [0.25], tailS: 0 },
};
const reel = { L: click(100), R: click(12_000), sampleRate: RATE };

describe("the invented studio", () => {
  const { session, recordings } = simulateSession(brief, reel);

  it("gives a session that names each of its recordings once, for each pair at each position as many as it has takes", () => {
    expect(sessionSchema.parse(session)).toEqual(session);
    expect(session.recordings.map(({ file }) => file)).toEqual(recordings.map(({ file }) => file));
    const takes = demoStudio.positions.reduce((sum, position) => sum + (position.takes ?? 1), 0);
    expect(new Set(recordings.map(({ file }) => file)).size).toBe(demoStudio.pairs.length * takes);
    for (const { monitor, position, take } of session.recordings) {
      expect(take).toBeLessThanOrEqual(demoStudio.positions.find(({ id }) => id === position)!.takes ?? 1);
      expect(demoStudio.pairs.map(({ id }) => id)).toContain(monitor);
    }
    expect(session.positions.filter(({ kind }) => kind === "mix")).toHaveLength(1);
  });

  it("lets each loudspeaker's sound arrive after its own distance", () => {
    recordings.forEach(({ samples }, index) => {
      const taken = session.recordings[index]!;
      const pair = demoStudio.pairs.find(({ id }) => id === taken.monitor)!;
      const position = demoStudio.positions.find(({ id }) => id === taken.position)!;
      for (const [channel, atSample] of [
        ["L", 100],
        ["R", 12_000],
      ] as const) {
        const placement = pair.placement[channel];
        const distanceM = Math.hypot(...([0, 1, 2] as const).map((axis) => placement[axis] - position.xyzM[axis]));
        const expected = 0.25 * RATE + atSample + (distanceM / demoStudio.room.soundSpeedMPerS) * RATE;
        const from = Math.round(0.25 * RATE) + atSample;
        let peak = 0;
        for (let n = from; n < from + 0.02 * RATE; n++) peak = Math.max(peak, Math.abs(samples[n]!));
        const first = samples.findIndex((value, n) => n >= from && Math.abs(value) > 0.3 * peak);
        // A low-pass of second order near 20 kHz and two crossovers round a click's front by a few samples.
        expect(Math.abs(first - expected)).toBeLessThan(6);
      }
    });
  });

  const noisy = (pinkDbRms: number, seed = 1): Scenario => ({
    ...brief,
    positions: brief.positions.slice(0, 1),
    recorder: { ...brief.recorder, noise: { pinkDbRms } },
    seed,
  });

  it("sounds the same to the last bit each time, and another way with another seed", () => {
    const one = simulateSession(noisy(-60), reel);
    expect(simulateSession(noisy(-60), reel)).toEqual(one);
    expect(simulateSession(noisy(-60, 2), reel).recordings[0]).not.toEqual(one.recordings[0]);
  });

  it("adds to takes of one place nothing but noise of their own", () => {
    const takes = simulateSession(noisy(-60), reel).recordings.slice(0, 2);
    const clean = simulateSession({ ...noisy(-60), recorder: brief.recorder }, reel).recordings;
    const [a, b] = takes.map(({ samples }, index) => samples.map((value, n) => value - clean[index]!.samples[n]!));
    expect(clean[1]!.samples).toEqual(clean[0]!.samples);
    // 0.75 s of pink noise hold few cycles of its lowest octaves, which scatter by some dB: a tenth of the power is plenty.
    const [rms, other, both] = [a!, b!, a!.map((value, n) => value + b![n]!)].map((noise) =>
      rootMeanSquare(noise, 0, noise.length),
    );
    expect(20 * Math.log10(rms!)).toBeGreaterThan(-64);
    expect(20 * Math.log10(rms!)).toBeLessThan(-56);
    // Two that are independent add up as powers do, two that are the same as pressures.
    expect(both! / Math.hypot(rms!, other!)).toBeLessThan(1.2);
  });

  it("may be recorded again with other noise from the same sounds", () => {
    const studio = openStudio(noisy(-60), reel);
    for (const scenario of [noisy(-60), noisy(-50, 7)]) {
      const again = recordSession(scenario, reel, (pair, position) => studio.sound(pair, position));
      expect(again.recordings[1]).toEqual(simulateSession(scenario, reel).recordings[1]);
    }
  });

  it("cannot be measured without a mix position", () => {
    expect(() => simulateSession({ ...brief, positions: [] }, reel)).toThrow(RangeError);
  });
});

it("a desk's reflection comes by the mirrored path: 3 m across, 1 and 3 m above it, 5 m instead of the root of 13", () => {
  const path = deskReflection([0, 0, 1], [3, 0, 3], { soundSpeedMPerS: 340 }, { heightM: 0, lossDb: 2 });
  expect(path.delayS).toBeCloseTo((5 - Math.sqrt(13)) / 340, 12);
  expect(path.levelDb).toBeCloseTo(20 * Math.log10(Math.sqrt(13) / 5) - 2, 12);
  expect(() => deskReflection([0, 0, 1], [3, 0, 3], { soundSpeedMPerS: 340 }, { heightM: 2, lossDb: 0 })).toThrow(
    RangeError,
  );
});
