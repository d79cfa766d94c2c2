/**
 * Tables of the loudness of stationary sounds after Zwicker.
 *
 * Source: ISO 532-1:2017, Annex A (the same as DIN 45631:1991; E. Zwicker et al., J. Acoust. Soc. Jpn. (E) 12 (1991)), read in a stored
 * transcription, not in the standard. That they are whole is shown by the standard's worked input of Annex B.2, which they bring
 * to the published loudness.
 */

/** Number of third octaves, 25 Hz to 12.5 kHz, that the method takes. */
export const LOUDNESS_THIRD_OCTAVES = 28;

/** How far a low third octave counts less, by level: 25 Hz to 250 Hz, dB; each row holds up to a weighted level, dB. */
export const LOW_BAND_REDUCTIONS: readonly { readonly upToDb: number; readonly reductionDb: readonly number[] }[] = [
  { upToDb: 45, reductionDb: [-32, -24, -16, -10, -5, 0, -7, -3, 0, -2, 0] },
  { upToDb: 55, reductionDb: [-29, -22, -15, -10, -4, 0, -7, -2, 0, -2, 0] },
  { upToDb: 65, reductionDb: [-27, -19, -14, -9, -4, 0, -6, -2, 0, -2, 0] },
  { upToDb: 71, reductionDb: [-25, -17, -12, -9, -3, 0, -5, -2, 0, -2, 0] },
  { upToDb: 80, reductionDb: [-23, -16, -11, -7, -3, 0, -4, -1, 0, -1, 0] },
  { upToDb: 90, reductionDb: [-20, -14, -10, -6, -3, 0, -4, -1, 0, -1, 0] },
  { upToDb: 100, reductionDb: [-18, -12, -9, -6, -2, 0, -3, -1, 0, -1, 0] },
  { upToDb: 120, reductionDb: [-15, -10, -8, -4, -2, 0, -3, -1, 0, -1, 0] },
];

/** How many of the low third octaves make each of the three lowest critical bands: 25 to 80, 100 to 160, 200 and 250 Hz. */
export const LOW_GROUPS = [6, 3, 2] as const;

/** Threshold in quiet of each critical band, dB. */
export const QUIET_THRESHOLD_DB: readonly number[] = [30, 18, 12, 8, 7, 6, 5, 4, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3, 3];

/** What the ear loses on the way to the inner ear, dB; negative where it gains. */
export const TRANSMISSION_DB: readonly number[] = [
  0, 0, 0, 0, 0, 0, 0, 0, 0, 0, -0.5, -1.6, -3.2, -5.4, -5.6, -4, -1.5, 2, 5, 12,
];

/** Level in a diffuse field over that in a free field at equal level at the ear, to be added for a diffuse field, dB. */
export const DIFFUSE_FIELD_DB: readonly number[] = [
  0, 0, 0.5, 0.9, 1.2, 1.6, 2.3, 2.8, 3, 2, 0, -1.4, -2, -1.9, -1, 0.5, 3, 4, 4.3, 4,
];

/** Third octave against critical band, to be taken off, dB. */
export const BANDWIDTH_DB: readonly number[] = [
  -0.25, -0.6, -0.8, -0.8, -0.5, 0, 0.5, 1.1, 1.5, 1.7, 1.8, 1.8, 1.7, 1.6, 1.4, 1.2, 0.8, 0.5, 0, -0.5,
];

/**
 * Upper edge of each critical band, the last without a core of its own, Bark. The standard's own program puts the edges 0.0001 Bark
 * higher, which its published specific loudness shows.
 */
export const UPPER_EDGE_BARK: readonly number[] = [
  0.9, 1.8, 2.8, 3.5, 4.4, 5.4, 6.6, 7.9, 9.2, 10.6, 12.3, 13.8, 15.2, 16.7, 18.1, 19.3, 20.6, 21.8, 22.7, 23.6, 24.0,
].map((edge) => edge + 0.0001);

/** Steepness of the upper slope by range of specific loudness: lower end of the range, sone per Bark; then sone per Bark squared for
 * the second critical band, the third and so on; the last holds for all above. */
export const UPPER_SLOPES: readonly { readonly downTo: number; readonly steepness: readonly number[] }[] = [
  { downTo: 21.5, steepness: [13, 8.2, 6.3, 5.5, 5.5, 5.5, 5.5, 5.5] },
  { downTo: 18, steepness: [9, 7.5, 6, 5.1, 4.5, 4.5, 4.5, 4.5] },
  { downTo: 15.1, steepness: [7.8, 6.7, 5.6, 4.9, 4.4, 3.9, 3.9, 3.9] },
  { downTo: 11.5, steepness: [6.2, 5.4, 4.6, 4.0, 3.5, 3.2, 3.2, 3.2] },
  { downTo: 9, steepness: [4.5, 3.8, 3.6, 3.2, 2.9, 2.7, 2.7, 2.7] },
  { downTo: 6.1, steepness: [3.7, 3.0, 2.8, 2.35, 2.2, 2.2, 2.2, 2.2] },
  { downTo: 4.4, steepness: [2.9, 2.3, 2.1, 1.9, 1.8, 1.7, 1.7, 1.7] },
  { downTo: 3.1, steepness: [2.4, 1.7, 1.5, 1.35, 1.3, 1.3, 1.3, 1.3] },
  { downTo: 2.13, steepness: [1.95, 1.45, 1.3, 1.15, 1.1, 1.1, 1.1, 1.1] },
  { downTo: 1.36, steepness: [1.5, 1.2, 0.94, 0.86, 0.82, 0.82, 0.82, 0.82] },
  { downTo: 0.82, steepness: [0.72, 0.67, 0.64, 0.63, 0.62, 0.62, 0.62, 0.62] },
  { downTo: 0.42, steepness: [0.59, 0.53, 0.51, 0.5, 0.42, 0.42, 0.42, 0.42] },
  { downTo: 0.3, steepness: [0.4, 0.33, 0.26, 0.24, 0.24, 0.22, 0.22, 0.22] },
  { downTo: 0.22, steepness: [0.27, 0.21, 0.2, 0.18, 0.17, 0.17, 0.17, 0.17] },
  { downTo: 0.15, steepness: [0.16, 0.15, 0.14, 0.12, 0.11, 0.11, 0.11, 0.11] },
  { downTo: 0.1, steepness: [0.12, 0.11, 0.1, 0.08, 0.08, 0.08, 0.08, 0.08] },
  { downTo: 0.035, steepness: [0.09, 0.08, 0.07, 0.06, 0.06, 0.06, 0.06, 0.05] },
  { downTo: 0, steepness: [0.06, 0.05, 0.03, 0.02, 0.02, 0.02, 0.02, 0.02] },
];
