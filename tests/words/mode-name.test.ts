import { describe, expect, it } from "vitest";

import { matchModes } from "../../src/comparison/modes/match-modes.js";
import { predictModes } from "../../src/geometry/room-modes.js";
import { likelyModes, modeName } from "../../src/words/mode-name.js";

describe("a mode's name", () => {
  it("says the axes that it goes along, with its half waves", () => {
    expect(modeName([1, 0, 0])).toBe("length 1");
    expect(modeName([0, 2, 0])).toBe("width 2");
    expect(modeName([1, 1, 0])).toBe("length 1, width 1");
    expect(modeName([3, 0, 2])).toBe("length 3, height 2");
    expect(modeName([1, 2, 3])).toBe("length 1, width 2, height 3");
  });

  it("comes with the two walls that an axial mode goes between, and with none for the others", () => {
    const between = (...order: [number, number, number]) => likelyModes([{ order }])?.between;
    expect(between(2, 0, 0)).toBe("between front and rear wall");
    expect(between(0, 1, 0)).toBe("between the side walls");
    expect(between(0, 0, 1)).toBe("between floor and ceiling");
    expect(between(1, 1, 0)).toBeNull();
    expect(between(1, 1, 1)).toBeNull();
  });
});

describe("A mode of a room with equal dimensions", () => {
  const cube = predictModes([6.06, 6.06, 6.06], 343, 60);
  const named = (hz: number) => likelyModes(matchModes([hz, hz], cube).map((index) => cube[index]!));

  it("is told as one of all pairs of walls that are equally far apart", () => {
    const first = named(28.3)!;
    expect(first.between).toBe("between front and rear wall, the side walls or floor and ceiling");
    expect(first).toMatchObject({ text: `sound ${first.between}`, isOne: false });
  });

  it("is not put between walls where a mode around four of them lies there too", () => {
    const { text, between } = likelyModes([{ order: [0, 2, 0] }, { order: [2, 1, 0] }])!;
    expect(text).toBe("sound between the side walls, or the mode length 2, width 1");
    expect(between).toBeNull();
  });

  it("is not named at all where nothing is predicted, or more than anyone can tell apart", () => {
    expect(named(33)).toBeNull();
    const many = ([1, 2, 3, 4, 5] as const).map((k) => ({ order: [k, k, 0] as [number, number, number] }));
    expect(likelyModes(many)).toBeNull();
  });
});
