import { describe, expect, it } from "vitest";
import { takesAgree } from "../../../src/pipeline/findings/takes-agree.js";

const files = ["one.wav", "two.wav"];
const spread = (differenceDb: number, outsideDb = differenceDb): Parameters<typeof takesAgree>[1]["spread"] =>
  [100, 1000, 10_000].map((hz) => {
    const db = hz === 1000 ? differenceDb : outsideDb;
    return { nominalHz: hz, exactHz: hz, deviationDb: db / Math.SQRT2, differenceDb: db, relativeDb: [0, db] };
  });
const alike = { agree: true, coherence: 1, largestDifferenceDb: 0.1, shapeDifferenceDb: 0.1, spread: spread(0.1) };
const said = (parts: Partial<typeof alike>): string | null =>
  takesAgree("nears-L@mix", { ...alike, ...parts }, 343, files)?.code ?? null;

describe("Takes of one place", () => {
  it("that agree, or of which noise hides the reflections, are not spoken of", () => {
    expect(said({})).toBeNull();
    expect(takesAgree("nears-L@mix", { ...alike, coherence: null }, 343, files)).toBeNull();
  });

  it("all of whose bands differ alike were recorded with another gain", () => {
    expect(said({ agree: false, largestDifferenceDb: 0.8, shapeDifferenceDb: 0.05, spread: spread(0.8) })).toBe(
      "gain-changed",
    );
  });

  it("of which one band differs differ", () => {
    expect(said({ agree: false, largestDifferenceDb: 2, shapeDifferenceDb: 1.9, spread: spread(2, 0.1) })).toBe(
      "takes-differ",
    );
  });

  it("that agree in the middle and not in the bass differ too", () => {
    expect(said({ spread: spread(0.1, 3) })).toBe("takes-differ");
  });

  it("whose reflections do not agree are of two places, as far apart as a diffuse field says", () => {
    const moved = takesAgree("nears-L@mix", { ...alike, agree: false, coherence: 0 }, 343, files)!;
    expect(moved.code).toBe("position-moved");
    // Coherence 0 is half a wavelength across the direct sound and a quarter along it: 343 / 4000 / 4 m.
    expect(moved.value).toBeCloseTo(0.0214, 3);
  });
});
