import { describe, expect, it } from "vitest";
import { canMoveTo } from "../../src/geometry/clearance.js";
import { faces, panelSurface } from "../../src/geometry/surfaces.js";

const room = faces({ lengthM: 6, widthM: 5, heightM: 3 });
const desk = panelSurface({ id: "desk", centreM: [3, 2.5, 0.7], normal: [0, 0, 1], widthM: 1.8, heightM: 0.8 });

describe("A loudspeaker that is moved", () => {
  it("keeps half its size from walls, and one beyond a wall is in no room", () => {
    expect(canMoveTo([0.11, 2, 1], [0.5, 2, 1], room)).toBe(true);
    expect(canMoveTo([0.09, 2, 1], [0.5, 2, 1], room)).toBe(false);
    expect(canMoveTo([-0.5, 2, 1], [0.5, 2, 1], room)).toBe(false);
    expect(canMoveTo([6.5, 2, 1], [0.5, 2, 1], room)).toBe(false);
  });

  it("does not go through a panel, but may pass 10 cm beside its edge", () => {
    expect(canMoveTo([3, 2.5, 0.4], [3, 2.5, 1], [desk])).toBe(false);
    expect(canMoveTo([3.39, 2.5, 0.4], [3.39, 2.5, 1], [desk])).toBe(false);
    expect(canMoveTo([3.51, 2.5, 0.4], [3.51, 2.5, 1], [desk])).toBe(true);
    expect(canMoveTo([3.49, 2.5, 0.7], [3.7, 2.5, 0.7], [desk])).toBe(false);
  });

  it("may keep its distance where it stands nearer already, as on the desk or in the wall", () => {
    expect(canMoveTo([3.2, 2.5, 0.76], [3, 2.5, 0.76], [desk])).toBe(true);
    expect(canMoveTo([3, 2.5, 0.9], [3, 2.5, 0.76], [desk])).toBe(true);
    expect(canMoveTo([3, 2.5, 0.74], [3, 2.5, 0.76], [desk])).toBe(false);
    expect(canMoveTo([0.02, 3, 1], [0.02, 2, 1], room)).toBe(true);
  });
});
