import { describe, expect, it } from "vitest";

import { betweenWalls, modeName } from "../../src/words/mode-name.js";

describe("a mode's name", () => {
  it("says the axes that it goes along, with its half waves", () => {
    expect(modeName([1, 0, 0])).toBe("length 1");
    expect(modeName([0, 2, 0])).toBe("width 2");
    expect(modeName([1, 1, 0])).toBe("length 1, width 1");
    expect(modeName([3, 0, 2])).toBe("length 3, height 2");
    expect(modeName([1, 2, 3])).toBe("length 1, width 2, height 3");
  });

  it("comes with the two walls that an axial mode goes between, and with none for the others", () => {
    expect(betweenWalls([2, 0, 0])).toBe("between front and rear wall");
    expect(betweenWalls([0, 1, 0])).toBe("between the side walls");
    expect(betweenWalls([0, 0, 1])).toBe("between floor and ceiling");
    expect(betweenWalls([1, 1, 0])).toBeNull();
    expect(betweenWalls([1, 1, 1])).toBeNull();
  });
});
