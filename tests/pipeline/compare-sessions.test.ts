import { beforeAll, describe, expect, it } from "vitest";
import type { Results } from "../../src/model.js";
import { compareSessions } from "../../src/pipeline/compare-sessions.js";
import { demoStudio } from "../../src/simulate/demo-studio.js";
import { Random } from "../../src/simulate/random.js";
import type { ShoeboxRoom } from "../../src/simulate/room/room-path.js";
import type { Scenario } from "../../src/simulate/scenario.js";
import { alike, plainRoom } from "../simulate/test-rooms.js";
import { type Answers, answersOf, impulseSession } from "./impulse-session.js";

/** From simulated sound through measuring and comparing to the words. */

const RATE = 48_000;
const PLACEMENT_M = 0.02;
const mains = demoStudio.pairs.find(({ id }) => id === "mains")!;

function told(before: Results, after: Results, placementM = PLACEMENT_M): string[] {
  return compareSessions(before, after, { placementM, monitors: null, version: "0" })
    .says.filter(({ quantity }) => /flutter|Slope/.test(quantity))
    .map(({ topic, message }) => `${topic} ${message}`);
}

describe("A door to a room of 1 s, 20 dB under the control room's own sound", () => {
  const LATE_S = 1;
  const closed = answersOf({ ...demoStudio, pairs: [mains], positions: [demoStudio.positions[0]!], responseS: 1.5 });

  /** What comes back through the door: noise that dies away at the other room's own rate, from 30 ms on. */
  function opened(answers: Answers): Answers {
    // Another seed than any session's noise, which would add to it in step.
    const random = new Random(77);
    const perSample = (3 * Math.LN10) / LATE_S / RATE;
    const responses = [...answers.responses].map(([name, samples]): [string, Float64Array] => {
      const energy = samples.reduce((sum, value) => sum + value * value, 0);
      // A decay of 1 / (2 rate) samples of mean energy 1 holds that energy.
      const gain = Math.sqrt(0.01 * energy * 2 * perSample);
      const from = samples.length - (1.5 - 0.03) * RATE;
      const noise = random.fillNormal(new Float64Array(samples.length));
      return [
        name,
        samples.map((value, n) => value + (n < from ? 0 : gain * noise[n]! * Math.exp(-perSample * (n - from)))),
      ];
    });
    return { ...answers, responses: new Map(responses) };
  }

  let shut: Results, open: Results, openAgain: Results;
  beforeAll(async () => {
    shut = await impulseSession(closed, 1);
    open = await impulseSession(opened(closed), 2);
    openAgain = await impulseSession(opened(closed), 3);
  });

  it("is measured as a second slope of that time, which the shut one has not", () => {
    expect(shut.doubleSlopes).toEqual([]);
    expect(open.doubleSlopes!.length).toBeGreaterThan(4);
    for (const { lateS, lateUncertaintyS, nominalHz } of open.doubleSlopes!) {
      // Three standard uncertainties, of some seven octaves.
      expect(Math.abs(lateS - LATE_S), String(nominalHz)).toBeLessThan(3 * lateUncertaintyS);
    }
  });

  it("is told to be gone when it is shut, and to have appeared when it is opened", () => {
    for (const placementM of [0, PLACEMENT_M]) {
      const [gone, ...others] = told(open, shut, placementM);
      expect(others).toEqual([]);
      expect(gone).toMatch(/^better mains: the second, slower decay in octaves at .* to 8 kHz is gone/);
      expect(told(shut, open, placementM)).toEqual([
        gone!.replace("better", "worse").replace("is gone", "has appeared"),
      ]);
    }
  });

  it("left open is told neither to have come nor to have gone", () => {
    expect(told(open, openAgain, 0)).toEqual([]);
    expect(told(open, openAgain)).toEqual([]);
  });
});

describe("Side walls that are bare, in a room otherwise lined", () => {
  const room = (others: Partial<ShoeboxRoom["absorption"]>): Scenario => ({
    ...demoStudio,
    room: plainRoom([6.1, 4.6, 2.9], 0.8, others),
    responseS: 0.8,
    pairs: [{ ...mains, directivity: alike(0), placement: { L: [1, 1.3, 1.25], R: [1, 3.2, 1.25] } }],
    positions: [{ id: "mix", kind: "mix", xyzM: [3.4, 1.9, 1.3] }],
  });
  const hard = alike(0.1);
  // Walls 4.6 m apart: 9.2 m there and back, 26.8 ms.

  it("make a flutter that is told to be gone when one of them is lined, and to have appeared when it is laid bare", async () => {
    const bare = await impulseSession(answersOf(room({ left: hard, right: hard })), 1);
    const lined = await impulseSession(answersOf(room({ right: hard })), 2);
    expect(told(bare, lined)[0]).toMatch(/^better mains: the flutter, echoes every 26\.\d ms, is gone/);
    expect(told(lined, bare)[0]).toMatch(/^worse mains: the flutter, echoes every 26\.\d ms, has appeared/);
  });
});
