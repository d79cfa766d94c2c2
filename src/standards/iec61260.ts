/**
 * Octave and third-octave bands and the acceptance limits of class 1 filters.
 *
 * Source: IEC 61260-1:2014, 5.2 to 5.5 (ratio G, midbands, edges) and Table 1 (limits). The limits were read in two
 * transcriptions that agree, not in the standard itself; nominal names (Annex E) are from memory, undisputed. The 1995
 * edition has other limits.
 */

/** One fractional-octave band; its nominal frequency is only a name. */
export interface Band {
  readonly fraction: 1 | 3;
  readonly nominalHz: number;
  readonly exactHz: number;
}

/** G: the base-ten octave. */
const OCTAVE_RATIO = 10 ** 0.3;

const REFERENCE_HZ = 1000;

/** Nominal third-octave midbands; every third one, counted from 31.5 Hz, names an octave. */
const NOMINAL_HZ = [
  25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000,
  5000, 6300, 8000, 10_000, 12_500, 16_000, 20_000,
];
const FIRST_STEP = -16;

/** Third octaves from 25 Hz to 20 kHz. */
export const THIRD_OCTAVES: readonly Band[] = NOMINAL_HZ.map((nominalHz, n) => ({
  fraction: 3,
  nominalHz,
  exactHz: REFERENCE_HZ * OCTAVE_RATIO ** ((FIRST_STEP + n) / 3),
}));

/** Octaves from 31.5 Hz to 16 kHz. */
export const OCTAVES: readonly Band[] = THIRD_OCTAVES.filter((_, n) => n % 3 === 1).map((band) => ({
  ...band,
  fraction: 1,
}));

/** Edges of a band: fm G^(-1/2b) and fm G^(+1/2b), Hz. */
export function bandEdges(band: Pick<Band, "fraction" | "exactHz">): [lowHz: number, highHz: number] {
  const half = OCTAVE_RATIO ** (1 / (2 * band.fraction));
  return [band.exactHz / half, band.exactHz * half];
}

/** Every octave, then every third octave, whose edges lie inside a frequency range. */
export function bandsWithin(lowHz: number, highHz: number): Band[] {
  return [...OCTAVES, ...THIRD_OCTAVES].filter((band) => {
    const [from, to] = bandEdges(band);
    return from >= lowHz && to <= highHz;
  });
}

/** Attenuation relative to the midband, dB, that a class 1 filter has at least and at most. */
export interface AttenuationLimits {
  readonly leastDb: number;
  readonly mostDb: number;
}

/** Exponent of G, least and most attenuation of an octave filter, passband up to just inside the edge. */
const PASSBAND = [
  [0, 0.4],
  [1 / 8, 0.5],
  [1 / 4, 0.7],
  [3 / 8, 1.4],
  [1 / 2, 5.3],
] as const;
const PASSBAND_LEAST_DB = -0.4;
const STOPBAND = [
  [1 / 2, 1.2],
  [1, 16.6],
  [2, 40.5],
  [3, 60],
  [4, 70],
] as const;

/** Frequency ratios, 1 or more, at which the limits are tabled for a fraction. */
export function limitBreakpoints(fraction: 1 | 3): { passband: number[]; stopband: number[] } {
  return {
    passband: PASSBAND.map(([exponent]) => breakpoint(exponent, fraction)),
    stopband: STOPBAND.map(([exponent]) => breakpoint(exponent, fraction)),
  };
}

/** Ratio at which a third-octave filter has the limit that an octave filter has at G^exponent. */
function breakpoint(exponent: number, fraction: 1 | 3): number {
  const octave = OCTAVE_RATIO ** exponent;
  const scale = (OCTAVE_RATIO ** (1 / (2 * fraction)) - 1) / (OCTAVE_RATIO ** 0.5 - 1);
  return 1 + scale * (octave - 1);
}

/**
 * Limits of class 1 at a frequency, relative to the attenuation at midband.
 *
 * Between tabled points they are straight in dB over log frequency. At the edge itself both the last passband limit
 * (just inside) and the first stopband limit hold, so the stricter of each is given.
 *
 * @param ratio - frequency over exact midband, greater than 0
 * @returns `mostDb` is infinite outside the passband
 * @example classOneLimits(1, 1) // { leastDb: -0.4, mostDb: 0.4 }
 */
export function classOneLimits(fraction: 1 | 3, ratio: number): AttenuationLimits {
  const away = Math.max(ratio, 1 / ratio);
  const edge = OCTAVE_RATIO ** (1 / (2 * fraction));
  const atEdge = Math.abs(away / edge - 1) < 1e-12;
  const inside = atEdge || away < edge;
  const outside = atEdge || away > edge;
  return {
    leastDb: outside ? interpolate(STOPBAND, fraction, away) : PASSBAND_LEAST_DB,
    mostDb: inside ? interpolate(PASSBAND, fraction, away) : Number.POSITIVE_INFINITY,
  };
}

function interpolate(table: readonly (readonly [number, number])[], fraction: 1 | 3, ratio: number): number {
  let last = table[0]!;
  for (const row of table) {
    const here = breakpoint(row[0], fraction);
    if (ratio <= here) {
      const before = breakpoint(last[0], fraction);
      const share = here > before ? Math.max(0, Math.log(ratio / before)) / Math.log(here / before) : 1;
      return last[1] + Math.min(1, share) * (row[1] - last[1]);
    }
    last = row;
  }
  return last[1];
}
