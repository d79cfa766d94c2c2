/**
 * How sound in a room changes from place to place, as statistics of a diffuse field have it.
 *
 * A room below its Schroeder frequency, and a place that hears mostly direct sound, are calmer than this.
 */

/**
 * Correlation of the squared pressure of one narrow band at two places.
 *
 * @param wavenumber - 2 pi f / c, radians per metre
 * @param distanceM - between the places, 0 or more
 * @returns 1 at one place, 0 for places far apart
 * @remarks Source: R. K. Cook et al., J. Acoust. Soc. Am. 27 (1955): sin(kr) / (kr) for the pressure, squared for its square
 *   (D. Lubman, J. Acoust. Soc. Am. 44 (1968)). From memory, high confidence.
 * @example squaredPressureCorrelation(Math.PI, 1) // 0
 */
export function squaredPressureCorrelation(wavenumber: number, distanceM: number): number {
  const angle = wavenumber * distanceM;
  return angle === 0 ? 1 : (Math.sin(angle) / angle) ** 2;
}

/** Of the level of a pure tone over places in a diffuse field, dB: 10 lg e times pi / sqrt 6. */
const TONE_DEVIATION_DB = 5.57;
/** How bandwidth times reverberation time counts. */
const PER_BAND_TIME = 0.238;

/**
 * Standard deviation of a band's level over places in a diffuse field.
 *
 * @param bandwidthHz - 0 for a pure tone
 * @param timeS - reverberation time
 * @returns dB
 * @remarks Source: M. R. Schroeder, J. Acoust. Soc. Am. 46 (1969), 5.57 / sqrt(1 + 0.238 B T). From memory, high confidence.
 * @example levelDeviationDb(0, 0.3) // 5.57
 */
export function levelDeviationDb(bandwidthHz: number, timeS: number): number {
  return TONE_DEVIATION_DB / Math.sqrt(1 + PER_BAND_TIME * bandwidthHz * timeS);
}
