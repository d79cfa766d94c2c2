import { describe, expect, it } from "vitest";

import { matchModes } from "../../../src/comparison/modes/match-modes.js";
import { predictModes } from "../../../src/geometry/room-modes.js";

describe("measured and predicted modes", () => {
  // 24.5, 34.3, 42.15, 49.0, 57.17, 59.81, 62.2, 66.67, 68.6 Hz.
  const predicted = predictModes([7, 5, 3], 343, 69);

  it("match within 3 %, which is what 2 % of a dimension and 5 degrees of air come to", () => {
    expect(matchModes([34, 34], predicted)).toEqual([1]);
    expect(matchModes([34.3 / 0.971, 34.3 / 0.971], predicted)).toEqual([1]);
    expect(matchModes([34.3 / 0.969, 34.3 / 0.969], predicted)).toEqual([]);
  });

  it("match the nearest first where several lie within reach", () => {
    expect(matchModes([59, 59], predicted)).toEqual([5]);
    expect(matchModes([58.3, 58.3], predicted)).toEqual([4, 5]);
  });

  it("match all that lie within a group", () => {
    expect(matchModes([56, 64], predicted).sort((a, b) => a - b)).toEqual([4, 5, 6]);
  });

  it("match nothing where nothing is predicted", () => {
    expect(matchModes([34, 34], [])).toEqual([]);
  });
});
