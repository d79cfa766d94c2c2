import { AIR } from "./porous-material.js";

/**
 * Mass that a limp sheet before a closed, shallow box needs to swing at a frequency: f = 60 / sqrt(m d).
 *
 * The sheet is the mass, the air behind it the spring. A stiff board's own bending adds to the spring and raises the frequency.
 *
 * @param cavityM - depth of air behind the sheet, m
 * @returns kg/m²
 * @remarks Source: f = c / 2π sqrt(ρ / (m d)), which at 20 °C is 59.9 / sqrt(m d); textbook, from memory.
 * @example membraneMass(60, 0.1) // 10
 */
export function membraneMass(frequencyHz: number, cavityM: number): number {
  positive({ frequencyHz, cavityM });
  return (60 / frequencyHz) ** 2 / cavityM;
}

/** A plate with round holes before a closed box. */
export interface HoledPlate {
  readonly cavityM: number;
  readonly plateM: number;
  readonly holeM: number;
}

/**
 * Share of a plate that must be open for it to swing at a frequency: f = c / 2π sqrt(share / (depth (plate + 0.85 hole))).
 *
 * The air in the holes is the mass, that in the box the spring; 0.85 hole widths are what moves with it on both sides.
 *
 * @returns 0 to 1; null where even an open plate swings lower
 * @remarks Source: Helmholtz; end correction of a hole with a flange on both sides, 8 / 3π of its radius each, from memory.
 *   Holes far apart are taken, as they are below some percent.
 */
export function holedPlateShare(frequencyHz: number, { cavityM, plateM, holeM }: HoledPlate): number | null {
  positive({ frequencyHz, cavityM, plateM, holeM });
  const wave = (2 * Math.PI * frequencyHz) / AIR.soundSpeedMPerS;
  const share = wave * wave * cavityM * (plateM + (8 / (3 * Math.PI)) * holeM);
  return share < 1 ? share : null;
}

function positive(values: Readonly<Record<string, number>>): void {
  for (const [name, value] of Object.entries(values)) {
    if (!(value > 0)) throw new RangeError(`${name} must be above 0, found ${value}`);
  }
}
