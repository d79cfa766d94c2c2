import { type Complex, minusJCot, over, plus, times } from "./complex.js";
import { AIR, type PorousMaterial } from "./porous-material.js";

/**
 * What a porous layer before a rigid wall shows to sound that meets it at right angles.
 *
 * @param depthM - above 0
 * @param gapM - air between layer and wall; 0 for none
 * @returns surface impedance re that of air
 * @throws {RangeError} if a depth is out of range
 * @remarks Source: transfer of impedance through a layer, textbook; e.g. J.-F. Allard, N. Atalla, Propagation of Sound in
 *   Porous Media (2009), 2.16, as restated.
 */
export function layerImpedance(
  { impedance, waveNumber }: PorousMaterial,
  frequencyHz: number,
  depthM: number,
  gapM = 0,
): Complex {
  if (!(depthM > 0 && gapM >= 0)) throw new RangeError(`depth ${depthM} m must be above 0, gap ${gapM} m not below`);
  const own = times(impedance, minusJCot({ re: waveNumber.re * depthM, im: waveNumber.im * depthM }));
  if (gapM === 0) return own;
  const inAir = (2 * Math.PI * frequencyHz) / AIR.soundSpeedMPerS;
  const behind = minusJCot({ re: inAir * gapM, im: 0 });
  return over(plus(times(behind, own), times(impedance, impedance)), plus(behind, own));
}

/**
 * Share of the energy that a surface takes of sound meeting it at right angles.
 *
 * @param surface - impedance re that of air
 * @example normalAbsorption({ re: 1, im: 0 }) // 1
 * @example normalAbsorption({ re: 3, im: 0 }) // 0.75
 */
export function normalAbsorption(surface: Complex): number {
  const reflected = over({ re: surface.re - 1, im: surface.im }, { re: surface.re + 1, im: surface.im });
  return 1 - reflected.re ** 2 - reflected.im ** 2;
}

/**
 * Share of the energy that a surface takes of sound from all sides alike: the mean over all angles, by Paris, of a surface that
 * is so large that its edges do not matter and in which no sound runs along.
 *
 * A real layer's edges take more: laboratories print up to 1.2. No surface of this kind takes more than 0.951.
 *
 * @param surface - impedance re that of air, its real part above 0
 * @remarks Source: T. E. Vigran, Building Acoustics (2008), equation 3.80 (read), there with the greatest value, 0.95 at 1.6.
 * @example diffuseAbsorption({ re: 1.567, im: 0 }) // 0.951
 */
export function diffuseAbsorption({ re, im }: Complex): number {
  const square = re * re + im * im;
  const angle = im === 0 ? 1 / (1 + re) : Math.atan(im / (1 + re)) / im;
  const mean = 1 - (re / square) * Math.log(1 + 2 * re + square) + ((re * re - im * im) / square) * angle;
  return ((8 * re) / square) * mean;
}
