import type { Complex } from "./complex.js";

/** What sound meets in a porous material without end. */
export interface PorousMaterial {
  /** Re that of air. */
  readonly impedance: Complex;
  /** 1/m. */
  readonly waveNumber: Complex;
}

/** Air at 20 °C and 101.3 kPa. */
export const AIR = { densityKgPerM3: 1.204, soundSpeedMPerS: 343.2 } as const;

/**
 * Characteristic impedance and wave number of a fibrous material by its air-flow resistivity alone.
 *
 * @param frequencyHz - above 0
 * @param resistivity - Pa s/m², above 0
 * @throws {RangeError} if one of them is not above 0
 * @remarks Source: M. E. Delany, E. N. Bazley, Appl. Acoust. 3 (1970), 105, in the form with density times frequency over
 *   resistivity, in which it is restated everywhere (read in two restatements). Regressions over materials of porosity near 1.
 * @example delanyBazley(830, 10_000).impedance // 1.32 - 0.47 j: X = 0.1
 */
export function delanyBazley(frequencyHz: number, resistivity: number): PorousMaterial {
  const x = (AIR.densityKgPerM3 * share(frequencyHz, resistivity)) ** -1;
  return material(frequencyHz, {
    impedance: [0.0571 * x ** 0.754, 0.087 * x ** 0.732],
    wave: [0.0978 * x ** 0.7, 0.189 * x ** 0.595],
  });
}

/**
 * The same by Miki's regressions over the same data, which stay physical below the tested range: no layer gives energy back.
 *
 * @remarks Source: Y. Miki, J. Acoust. Soc. Jpn. (E) 11 (1990), 19, as restated by the Acoustical Porous Material Recipes
 *   (read). Mind the variable: 1000 f over resistivity, not the density of air times f over it.
 */
export function miki(frequencyHz: number, resistivity: number): PorousMaterial {
  const x = (1000 * share(frequencyHz, resistivity)) ** -1;
  return material(frequencyHz, {
    impedance: [5.5 * x ** 0.632, 8.43 * x ** 0.632],
    wave: [7.81 * x ** 0.618, 11.41 * x ** 0.618],
  });
}

/**
 * The same by what is known best: Delany and Bazley's regressions where materials were measured, Miki's where none were.
 *
 * Inside, the older ones are what published curves are drawn by; below, they would give energy back.
 */
export function fibrous(frequencyHz: number, resistivity: number): PorousMaterial {
  return isTested(frequencyHz, resistivity) ? delanyBazley(frequencyHz, resistivity) : miki(frequencyHz, resistivity);
}

/**
 * Whether materials were measured there: frequency over resistivity from 0.01 to 1, in SI units.
 *
 * @remarks Source: Delany and Bazley's own bounds, as restated by the Acoustical Porous Material Recipes (read). Miki found his
 *   regressions well behaved below, but measured nothing there either.
 */
export function isTested(frequencyHz: number, resistivity: number): boolean {
  const ratio = share(frequencyHz, resistivity);
  return ratio >= 0.01 && ratio <= 1;
}

function share(frequencyHz: number, resistivity: number): number {
  if (!(frequencyHz > 0 && resistivity > 0)) {
    throw new RangeError(`frequency ${frequencyHz} Hz and resistivity ${resistivity} Pa s/m² must be above 0`);
  }
  return frequencyHz / resistivity;
}

type Excess = readonly [more: number, lost: number];

function material(
  frequencyHz: number,
  { impedance, wave }: { readonly impedance: Excess; readonly wave: Excess },
): PorousMaterial {
  const inAir = (2 * Math.PI * frequencyHz) / AIR.soundSpeedMPerS;
  return {
    impedance: { re: 1 + impedance[0], im: -impedance[1] },
    waveNumber: { re: inAir * (1 + wave[0]), im: -inAir * wave[1] },
  };
}
