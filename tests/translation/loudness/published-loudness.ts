import { bandFilter, filterPower } from "../../../src/dsp/band-filter.js";
import { THIRD_OCTAVES } from "../../../src/standards/iec61260.js";

/** ISO 532-1:2017, Annex B.2, third-octave levels 25 Hz to 12.5 kHz, dB; published loudness 83.296 sone (transcription). */
export const ANNEX_B2_DB: readonly number[] = [
  ...[-60, -60, 78, 79, 89, 72, 80, 89, 75, 87, 85, 79, 86, 80, 71, 70, 72, 71, 72, 74, 69, 65, 67, 77, 68, 58, 45, 30],
];
export const ANNEX_B2_SONE = 83.296;

/** Place on the Bark scale, published specific loudness, sone per Bark. */
export type Published = readonly (readonly [bark: number, sonePerBark: number])[];

/** Annex B.2: every core, and the slopes at both ends of each range (transcription of the standard's table). */
export const ANNEX_B2_SPECIFIC: Published = [
  [0.1, 5.3272],
  [1, 7.3877],
  [1.9, 7.5599],
  [2.9, 7.2802],
  [3.3, 6.1602],
  [3.5, 5.7251],
  [3.6, 6.4327],
  [4.5, 6.2129],
  [5.4, 4.5724],
  [5.5, 4.4024],
  [6.6, 2.9915],
  [7.2, 2.3315],
  [7.3, 2.2901],
  [8.5, 2.5232],
  [9.3, 2.4134],
  [9.5, 2.3498],
  [10.7, 2.5533],
  [12.4, 3.0669],
  [13.9, 2.957],
  [14.2, 2.627],
  [14.5, 2.5232],
  [15.3, 2.4134],
  [15.4, 2.3034],
  [16.8, 2.6301],
  [18.2, 4.3633],
  [19.4, 4.2334],
  [20.4, 2.959],
  [21.2, 2.092],
  [22, 1.436],
  [22.9, 0.8595],
  [23, 0.8047],
  [24, 0.4015],
];

/** A published pure tone: free field, frontal. */
export interface PublishedTone {
  readonly frequencyHz: number;
  readonly levelDb: number;
  readonly sone: number;
  readonly specific: Published;
}

/** ISO 532-1:2017, Annex B.3, signals 2 to 4 (transcription): cores, the skirts of the filters beside them, slopes. */
export const TONES: readonly PublishedTone[] = [
  {
    frequencyHz: 250,
    levelDb: 80,
    sone: 14.655,
    specific: [
      [0.5, 0],
      [1, 0.329],
      [1.9, 4.583],
      [2.9, 4.381],
      [4, 2.85],
      [5, 1.832],
      [6, 1.097],
      [7, 0.587],
      [8, 0.291],
      [10, 0.084],
      [12, 0.015],
      [14, 0],
    ],
  },
  {
    frequencyHz: 1000,
    levelDb: 60,
    sone: 4.019,
    specific: [
      [4, 0],
      [4.5, 0.0058],
      [5.5, 0.0647],
      [6.7, 0.3417],
      [8, 1.2273],
      [9.3, 1.1654],
      [10, 0.76],
      [11, 0.3781],
      [12, 0.2008],
      [14, 0.0543],
      [17, 0],
    ],
  },
  {
    frequencyHz: 4000,
    levelDb: 40,
    sone: 1.549,
    specific: [
      [15, 0],
      [15.3, 0.096],
      [16.8, 0.494],
      [18.2, 0.452],
      [19, 0.27],
      [20, 0.144],
      [21, 0.078],
      [23, 0.012],
      [24, 0],
    ],
  },
];

/**
 * Annex B.3, signal 5, pink noise (transcription): 10.498 sone. The recording is not supplied with this project and its level by
 * third octave is not printed; "60 dB" spread over 20 Hz to 20 kHz would make 12.4 sone. So the level is read off the published
 * specific loudness of one critical band, and everything else must follow from it.
 */
export const PINK_SONE = 10.498;
export const PINK_SPECIFIC: Published = [
  [0.5, 0.154],
  [1, 0.451],
  [2, 0.502],
  [3, 0.451],
  [4, 0.449],
  [5, 0.441],
  [6, 0.437],
  [7, 0.415],
  [8, 0.408],
  [10, 0.404],
  [11, 0.413],
  [13, 0.446],
  [14.5, 0.499],
  [16, 0.582],
  [17, 0.6],
  [19, 0.546],
  [20, 0.477],
  [21, 0.382],
  [22.5, 0.323],
  [23, 0.249],
  [24, 0.153],
];

/** What the class 1 filters of this project show of a pure tone: its band and the skirts of the others, dB. */
export function toneThroughFilters(frequencyHz: number, levelDb: number): number[] {
  return THIRD_OCTAVES.slice(0, 28).map(
    (band) => levelDb + 10 * Math.log10(filterPower(bandFilter(band), frequencyHz)),
  );
}

/** What the standard allows, Annex B: 5 % or 0.1, whichever is more. */
export function allowedOff(published: number): number {
  return Math.max(0.05 * published, 0.1);
}
