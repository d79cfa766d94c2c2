import { describe, expect, it } from "vitest";
import { findModes } from "../../../src/metrics/modes/find-modes.js";
import { groupModes, type ModeGroup } from "../../../src/metrics/modes/group-modes.js";
import { decayTimeS } from "../../../src/metrics/modes/pole.js";
import { type KnownRoom, type RoomMode, roomOfImages, roomOfModes } from "./known-rooms.js";

/** The bar: 20 and more modes below 120 Hz; those whose spacing exceeds their bandwidth, 2.2 / T, within 0.5 Hz, the rest grouped. */
const UNTIL_HZ = 120;
const WITHIN_HZ = 0.5;

function lowModes({ modes }: KnownRoom): { alone: RoomMode[]; crowded: RoomMode[] } {
  const low = modes.filter(({ frequencyHz }) => frequencyHz < UNTIL_HZ);
  const isAlone = (mode: RoomMode): boolean =>
    modes.every((other) => other === mode || Math.abs(other.frequencyHz - mode.frequencyHz) > 2.2 / mode.t60S);
  return { alone: low.filter(isAlone), crowded: low.filter((mode) => !isAlone(mode)) };
}

/** By mode of its own that lies too far from what was found: how far. */
function astray(alone: readonly RoomMode[], groups: readonly ModeGroup[]): string[] {
  const found = groups.flatMap(({ members }) => members);
  return alone.flatMap(({ order, frequencyHz }) => {
    const off = Math.min(...found.map((one) => Math.abs(one.frequencyHz - frequencyHz)));
    return off < WITHIN_HZ ? [] : [`${order.join()} at ${frequencyHz.toFixed(2)} Hz: ${off.toFixed(2)} Hz`];
  });
}

/** Modes that stand alone in the results and in no room. */
function invented(room: KnownRoom, groups: readonly ModeGroup[]): number[] {
  return groups
    .flatMap(({ isOne, members }) => (isOne ? [members[0]!.frequencyHz] : []))
    .filter((hz) => hz < UNTIL_HZ && !room.modes.some((mode) => Math.abs(mode.frequencyHz - hz) < WITHIN_HZ));
}

const search = ({ responses }: KnownRoom): ModeGroup[] => groupModes(findModes(responses).modes);

describe("a room of 35 modes below 120 Hz, by the sum of its modes,", () => {
  const room = roomOfModes({ axial: 1.2, tangential: 0.9, oblique: 0.7 });
  const { alone, crowded } = lowModes(room);

  describe.each([
    ["heard at four places with two loudspeakers", 8],
    ["heard at one place with one loudspeaker that ends at 45 Hz", 1],
  ])("%s", (_, count) => {
    const groups = search({ ...room, responses: room.responses.slice(0, count) });

    it("shows each mode whose neighbours are farther than its bandwidth as one, within 0.5 Hz", () => {
      expect(alone).toHaveLength(8);
      expect(crowded).toHaveLength(27);
      const ones = groups.filter(({ isOne }) => isOne);
      expect(astray(alone, ones)).toEqual([]);
    });

    it("shows no mode of its own where there is none", () => {
      expect(invented(room, groups)).toEqual([]);
    });
  });

  it("shows the crowded modes as groups, or as the one that outrings the others, when heard at places enough", () => {
    // At a single place some of the 27 lie near a node and are heard less than what the fit leaves.
    const reaches = search(room).map(({ fromHz, toHz }) => [fromHz - WITHIN_HZ, toHz + WITHIN_HZ] as const);
    const unseen = crowded.filter(({ frequencyHz: hz }) => !reaches.some(([from, to]) => hz > from && hz < to));
    expect(unseen).toEqual([]);
  });

  it("decays as its modes do, to 5 %, wherever they are far apart", () => {
    const ones = search(room).flatMap(({ isOne, members }) => (isOne ? [members[0]!] : []));
    for (const { frequencyHz, t60S } of alone) {
      const mode = ones.find((one) => Math.abs(one.frequencyHz - frequencyHz) < WITHIN_HZ)!;
      expect(Math.abs(decayTimeS(mode) / t60S - 1), `${frequencyHz}`).toBeLessThan(0.05);
    }
  });
});

describe.each([
  // Shares of the energy that each wall keeps; T of the axial modes 3.4 to 0.6 s.
  { share: 0.1, count: 13 },
  { share: 0.2, count: 4 },
  { share: 0.3, count: 4 },
])("a room of mirror images whose walls keep $share", ({ share, count }) => {
  const room = roomOfImages(share);
  const { alone } = lowModes(room);
  const groups = search(room);

  it("has modes where the dimensions put them, within 0.5 Hz, with a loudspeaker that ends at 45 Hz", () => {
    expect(alone).toHaveLength(count);
    expect(astray(alone, groups)).toEqual([]);
    // One of the 13, 0.6 Hz farther from its neighbour than its bandwidth, is told with that neighbour as a group.
    const ones = groups.filter(({ isOne }) => isOne);
    expect(astray(alone, ones).length).toBeLessThanOrEqual(count === 13 ? 1 : 0);
  });

  it("shows no mode of its own where there is none", () => {
    expect(invented(room, groups)).toEqual([]);
  });
});
