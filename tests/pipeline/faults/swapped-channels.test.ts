import { describe, expect, it } from "vitest";
import type { Session } from "../../../src/model.js";
import type { Sides } from "../../../src/pipeline/faults/sides.js";
import { swappedChannels } from "../../../src/pipeline/faults/swapped-channels.js";

const L = [0, 0, 1.2];
const R = [0, 2, 1.2];
const SPEED = 343;
/** 30 cm left of the middle. */
const PLACE = [2, 0.7, 1.2];
const distance = (a: number[], b: number[]): number => Math.hypot(...a.map((value, n) => value - b[n]!));

const session = {
  monitors: [{ id: "nears", role: "nearfield", placement: { L, R } }],
  positions: [{ id: "left", kind: "near", xyzM: PLACE }],
} as unknown as Session;

/** A pair whose left arrives so much later than right. */
function pair(differenceS: number, parts: { oneFile?: boolean; flight?: boolean } = {}): Sides {
  const { oneFile = true, flight = false } = parts;
  const recording = { file: "left.wav", monitor: "nears", position: "left" };
  const take = (timeS: number, file: object): object => ({
    recording: file,
    flightS: flight ? timeS : null,
    arrivalPlayedS: flight ? null : timeS,
  });
  const left = take(0.006 + differenceS, recording);
  const right = take(0.006, oneFile ? recording : { ...recording });
  return { monitor: "nears", position: "left", left, right } as unknown as Sides;
}

const stated = (distance(L, PLACE) - distance(R, PLACE)) / SPEED;
const codes = (sides: Sides, own = session): string[] => swappedChannels(own, [sides], SPEED).map(({ code }) => code);

describe("Left and right, heard from off the middle", () => {
  it("are right when the nearer one arrives first, also with a loudspeaker 5 cm from its plan", () => {
    expect(codes(pair(stated))).toEqual([]);
    expect(codes(pair(stated + 0.05 / SPEED))).toEqual([]);
  });

  it("are swapped when the nearer one arrives later by as much", () => {
    expect(codes(pair(-stated))).toEqual(["channels-swapped"]);
    expect(codes(pair(-stated, { oneFile: false, flight: true }))).toEqual(["channels-swapped"]);
  });

  it("are neither when they arrive together: then the places are wrong", () => {
    expect(codes(pair(0))).toEqual([]);
  });

  it("are not told without one clock, without places, or from the middle", () => {
    expect(codes(pair(-stated, { oneFile: false }))).toEqual([]);
    const unplaced = { ...session, monitors: [{ id: "nears", role: "nearfield" }] } as unknown as Session;
    expect(codes(pair(-stated), unplaced)).toEqual([]);
    const middle = { ...session, positions: [{ id: "left", kind: "mix", xyzM: [2, 0.98, 1.2] }] } as unknown as Session;
    expect(codes(pair(-1e-5), middle)).toEqual([]);
  });
});
