import { harmonicLevels, type Distortion } from "./monitor/distortion.js";

/** The end of a monitor's range: a Butterworth filter, but for its least damped pair. */
interface RollOff {
  readonly frequencyHz: number;
  /** Slope, 6 dB per octave each; from 1 up. */
  readonly order: number;
  /** Quality of the least damped pair of poles, if it is not Butterworth's own: above it the end is lifted. */
  readonly quality?: number;
}

/** A correction or a fault of the tone. */
interface Shape {
  readonly kind: "peak" | "lowShelf" | "highShelf";
  readonly frequencyHz: number;
  readonly gainDb: number;
  /** For a peak: midband over the distance between the two points of half the gain in dB. Shelves are first order. */
  readonly quality?: number;
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
 * @remarks Source: Butterworth poles at `exp(i pi (2k + n - 1) / 2n)`; sum of a fourth-order Linkwitz-Riley pair,
 * `(s^2 - sqrt(2) s + 1) / (s^2 + sqrt(2) s + 1)`: S. Linkwitz, J. Audio Eng. Soc. 24 (1976). From memory.
 * @example monitorResponse({ polarity: -1 }, 1000) // [-1, 0]
 */
export function monitorResponse(monitor: Monitor, frequencyHz: number): [number, number] {
  let h: [number, number] = [(monitor.polarity ?? 1) * 10 ** ((monitor.gainDb ?? 0) / 20), 0];
  const { lowRollOff, highRollOff } = monitor;
  if (lowRollOff) {
    // A high-pass is the low-pass of the inverse frequency, conjugated.
    const [real, imaginary] = lowPass(lowRollOff, lowRollOff.frequencyHz / frequencyHz);
    h = product(h, [real, -imaginary]);
  }
  if (highRollOff) h = product(h, lowPass(highRollOff, frequencyHz / highRollOff.frequencyHz));
  for (const crossoverHz of monitor.crossoversHz ?? []) {
    const w = frequencyHz / crossoverHz;
    h = product(h, quotient([1 - w * w, -Math.SQRT2 * w], [1 - w * w, Math.SQRT2 * w]));
  }
  for (const shape of monitor.shapes ?? []) h = product(h, shapeResponse(shape, frequencyHz));
  const turn = -2 * Math.PI * frequencyHz * (monitor.delayS ?? 0);
  return product(h, [Math.cos(turn), Math.sin(turn)]);
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

/** `w` is the frequency over the corner. */
function lowPass({ order, quality }: RollOff, w: number): [number, number] {
  if (!Number.isInteger(order) || order < 1) throw new RangeError(`order ${order} must be a whole number from 1 up`);
  if (w === Infinity) return [0, 0];
  let h: [number, number] = order % 2 === 1 ? quotient([1, 0], [1, w]) : [1, 0];
  for (let pair = 0; pair < Math.floor(order / 2); pair++) {
    const butterworth = 1 / (2 * Math.sin((Math.PI * (2 * pair + 1)) / (2 * order)));
    h = product(h, quotient([1, 0], [1 - w * w, w / (pair === 0 ? (quality ?? butterworth) : butterworth)]));
  }
  return h;
}

function shapeResponse(
  { kind, frequencyHz: centreHz, gainDb, quality = Math.SQRT1_2 }: Shape,
  hz: number,
): [number, number] {
  const w = hz / centreHz;
  const half = 10 ** (gainDb / 40);
  if (kind === "lowShelf") return quotient([half, w], [1 / half, w]);
  if (kind === "highShelf") return quotient([1, half * w], [1, w / half]);
  return quotient([1 - w * w, (half * w) / quality], [1 - w * w, w / (half * quality)]);
}

function product([ar, ai]: [number, number], [br, bi]: [number, number]): [number, number] {
  return [ar * br - ai * bi, ar * bi + ai * br];
}

function quotient([ar, ai]: [number, number], [br, bi]: [number, number]): [number, number] {
  const size = br * br + bi * bi;
  return [(ar * br + ai * bi) / size, (ai * br - ar * bi) / size];
}
