import { expect, it } from "vitest";
import { roomDecay } from "../../src/schema/room-decay.js";

const nothing = { t20S: null, t30S: null, lateS: null, decayUncertaintyS: null, lateUncertaintyS: null, flags: [] };

it("a decay that can be followed over 30 dB stands for the band, else the one over 20 dB", () => {
  const both = { ...nothing, t20S: 0.2, t30S: 0.3, decayUncertaintyS: 0.01 };
  expect(roomDecay(both)).toEqual({ evaluation: "T30", timeS: 0.3, uncertaintyS: 0.01 });
  expect(roomDecay({ ...both, t30S: null })).toEqual({ evaluation: "T20", timeS: 0.2, uncertaintyS: 0.01 });
  expect(roomDecay(nothing)).toBeNull();
});

it("behind a loudspeaker's direct sound only the late decay is the room's", () => {
  const near = { ...nothing, t20S: 0.1, t30S: 0.1, decayUncertaintyS: 0.002, flags: ["direct-dominated"] };
  expect(roomDecay(near)).toBeNull();
  const late = roomDecay({ ...near, lateS: 0.25, lateUncertaintyS: 0.02 });
  expect(late).toEqual({ evaluation: "late", timeS: 0.25, uncertaintyS: 0.02 });
});

it("a late decay without a cliff before it does not replace the usual one", () => {
  expect(roomDecay({ ...nothing, t30S: 0.3, lateS: 0.2 })?.evaluation).toBe("T30");
});
