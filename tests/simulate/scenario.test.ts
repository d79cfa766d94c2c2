import { describe, expect, it } from "vitest";
import { sessionSchema } from "../../src/schema/session.js";
import { demoStudio } from "../../src/simulate/demo-studio.js";
import { deskReflection } from "../../src/simulate/room/desk-reflection.js";
import { type Scenario, simulateSession } from "../../src/simulate/scenario.js";

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

  it("gives a session that names each of its recordings once, one for each pair at each position", () => {
    expect(sessionSchema.parse(session)).toEqual(session);
    expect(session.recordings.map(({ file }) => file)).toEqual(recordings.map(({ file }) => file));
    expect(new Set(recordings.map(({ file }) => file)).size).toBe(
      demoStudio.pairs.length * demoStudio.positions.length,
    );
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

  it("sounds the same to the last bit each time, and another way with another seed", () => {
    const noisy: Scenario = { ...brief, recorder: { ...brief.recorder, noise: { pinkDbRms: -60 } } };
    const one = simulateSession(noisy, reel);
    expect(simulateSession(noisy, reel)).toEqual(one);
    expect(simulateSession({ ...noisy, seed: 1 }, reel).recordings[0]).not.toEqual(one.recordings[0]);
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
