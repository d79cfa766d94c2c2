import { describe, expect, it } from "vitest";
import { AIR } from "../../../src/standards/absorbers/porous-material.js";
import { holedPlateShare, membraneMass } from "../../../src/standards/absorbers/tuned-absorber.js";

describe("A sheet before a box", () => {
  it("swings at 60 Hz with 10 kg/m² before 10 cm of air", () => {
    expect(membraneMass(60, 0.1)).toBeCloseTo(10, 12);
  });

  it("is the mass on the spring of the air behind it: c / 2π sqrt(ρ / m d)", () => {
    for (const [frequencyHz, cavityM] of [
      [40, 0.3],
      [54, 0.2],
      [120, 0.05],
    ] as const) {
      const exact = (AIR.densityKgPerM3 * (AIR.soundSpeedMPerS / (2 * Math.PI * frequencyHz)) ** 2) / cavityM;
      // The rounded 60 is 59.94 at 20 °C: 0.2 % in the mass.
      expect(Math.abs(membraneMass(frequencyHz, cavityM) / exact - 1)).toBeLessThan(0.0025);
    }
  });
});

describe("A plate with holes before a box", () => {
  it("swings where a bottle of the same neck and belly does", () => {
    // One hole of 10 cm² and 36 mm width, 20 mm deep, on 10 l: c / 2π sqrt(S / V l), textbook.
    const holeM = 2 * Math.sqrt(0.001 / Math.PI);
    const neckM = 0.02 + (8 / (3 * Math.PI)) * holeM;
    const bottleHz = (AIR.soundSpeedMPerS / (2 * Math.PI)) * Math.sqrt(0.001 / (0.01 * neckM));
    // 10 l as a box of 0.1 m² and 10 cm: a hundredth is open.
    expect(holedPlateShare(bottleHz, { cavityM: 0.1, plateM: 0.02, holeM })).toBeCloseTo(0.01, 12);
  });

  it("cannot be tuned to where even no plate at all swings", () => {
    expect(holedPlateShare(5000, { cavityM: 0.1, plateM: 0.02, holeM: 0.01 })).toBe(null);
  });
});
