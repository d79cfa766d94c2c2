const ABSOLUTE_ZERO_C = -273.15;
const REFERENCE_K = 293.15;
const REFERENCE_M_PER_S = 343.2;

/**
 * Speed of sound in air.
 *
 * @param temperatureC - degrees Celsius
 * @returns m/s; humidity changes it by less than 0.3 % in rooms and is left out
 * @throws {RangeError} at or below absolute zero
 * @remarks Source: ISO 9613-1:1993, Annex A.
 * @example speedOfSound(20) // 343.2
 */
export function speedOfSound(temperatureC: number): number {
  if (!(temperatureC > ABSOLUTE_ZERO_C))
    throw new RangeError(`temperature ${temperatureC} C is not above absolute zero`);
  return REFERENCE_M_PER_S * Math.sqrt((temperatureC - ABSOLUTE_ZERO_C) / REFERENCE_K);
}
