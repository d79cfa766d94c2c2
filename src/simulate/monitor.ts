import { harmonicLevels, type Distortion } from "./monitor/distortion.js";
import { monitorSections } from "./monitor/sections.js";

/** The end of a monitor's range: a Butterworth filter, but for its least damped pair. */
export interface RollOff {
  readonly frequencyHz: number;
  /** Slope, 6 dB per octave each; from 1 up. */
  readonly order: number;
  /** Quality of the least damped pair of poles, if it is not Butterworth's own: above it the end is lifted. */
  readonly quality?: number;
}

/** A correction or a fault of the tone. */
export interface Shape {
  readonly kind: "peak" | "lowShelf" | "highShelf";
  readonly frequencyHz: number;
  readonly gainDb: number;
  /** For a peak: midband over the distance between the two points of half the gain in dB. */
  readonly quality?: number;
  /** Of a shelf: 1 if it is not stated. The corner has half the gain in dB either way; 2 is the steeper. */
  readonly order?: 1 | 2;
}

/**
 * A loudspeaker that does not exist.
 *
 * Left out: what a real one does off its axis (see `Source.directivity`), compression by heat, noise, diffraction,
 * and distortion that depends on frequency.
 */
export interface Monitor {
  readonly lowRollOff?: RollOff;
  readonly highRollOff?: RollOff;
  /** Linkwitz-Riley crossovers of fourth order: flat in level, they turn the phase as an all-pass. */
  readonly crossoversHz?: readonly number[];
  readonly shapes?: readonly Shape[];
  readonly gainDb?: number;
  readonly delayS?: number;
  readonly polarity?: 1 | -1;
  readonly distortion?: Distortion;
}

/**
 * Gives a monitor's complex response at one frequency, in closed form.
 *
 * @param monitor - its parameters
 * @param frequencyHz - 0 or more
 * @returns real and imaginary part; 1 and 0 for a monitor without parameters
 * @throws {RangeError} if an order is not a whole number from 1 up
 * @example monitorResponse({ polarity: -1 }, 1000) // [-1, 0]
 */
export function monitorResponse(monitor: Monitor, frequencyHz: number): [number, number] {
  return responseOf(monitor)(frequencyHz);
}

/**
 * Prepares a monitor's closed form for many frequencies.
 *
 * @param monitor - its parameters
 * @returns a function that does what `monitorResponse` does
 * @throws {RangeError} if an order is not a whole number from 1 up
 */
export function responseOf(monitor: Monitor): (frequencyHz: number) => [number, number] {
  const sections = monitorSections(monitor);
  const gain = (monitor.polarity ?? 1) * 10 ** ((monitor.gainDb ?? 0) / 20);
  const { delayS = 0 } = monitor;
  return (frequencyHz) => {
    const turn = -2 * Math.PI * frequencyHz * delayS;
    let real = gain * Math.cos(turn);
    let imaginary = gain * Math.sin(turn);
    for (const { cornerHz, above, below } of sections) {
      const w = frequencyHz / cornerHz;
      const aboveR = above[0] - above[2] * w * w;
      const aboveI = above[1] * w;
      const belowR = below[0] - below[2] * w * w;
      const belowI = below[1] * w;
      const scale = 1 / (belowR * belowR + belowI * belowI);
      const r = (aboveR * belowR + aboveI * belowI) * scale;
      const i = (aboveI * belowR - aboveR * belowI) * scale;
      const before = real;
      real = before * r - imaginary * i;
      imaginary = before * i + imaginary * r;
    }
    return [real, imaginary];
  };
}

/**
 * Gives the harmonics that a monitor adds to a steady sine, re its fundamental, as they leave the monitor.
 *
 * @param monitor - its parameters
 * @param frequencyHz - of the sine
 * @param amplitude - peak of the sine at the monitor's input, full scale 1
 * @returns dB for the second and third harmonic; `-Infinity` without distortion
 */
export function monitorHarmonicsDb(
  monitor: Monitor,
  frequencyHz: number,
  amplitude: number,
): { second: number; third: number } {
  const { fundamental, second, third } = harmonicLevels(monitor.distortion, amplitude);
  const at = (n: number): number => Math.hypot(...monitorResponse(monitor, n * frequencyHz));
  return {
    second: 20 * Math.log10((second * at(2)) / (fundamental * at(1))),
    third: 20 * Math.log10((third * at(3)) / (fundamental * at(1))),
  };
}
