import { raisedCosine } from "../dsp/raised-cosine.js";
import type { Excitation } from "./excitation.js";

const THIRD_OF_AN_OCTAVE = 2 ** (1 / 3);

/**
 * Makes the inverse of what was played: the product of both is one pulse of the swept band.
 *
 * Outside the swept band it fades to nothing over a third of an octave, where the sweep's own fades still carry energy: the
 * regularisation is none inside, total outside, smooth between.
 *
 * @param played - half spectrum, shape `[size + 2]`
 * @returns half spectrum, shape `[size + 2]`
 */
export function inverseOf(played: Float64Array, excitation: BandOf): Float64Array {
  const size = played.length - 2;
  const inverse = new Float64Array(played.length);
  const { gainAt, some, full } = bandGain(excitation, size);
  invertBetween(inverse, played, some[0], some[1]);
  weighBetween(inverse, some[0], full[0] - 1, gainAt);
  // Of a band of less than half an octave both edges reach over it.
  weighBetween(inverse, Math.max(full[0], full[1] + 1), some[1], gainAt);
  return inverse;
}

/** The loop that does most, in a function that does nothing else: it is compiled the sooner. */
function invertBetween(inverse: Float64Array, played: Float64Array, first: number, last: number): void {
  for (let k = first; k <= last; k++) {
    const re = played[2 * k]!;
    const im = played[2 * k + 1]!;
    const power = re * re + im * im;
    if (power === 0) continue;
    inverse[2 * k] = re / power;
    inverse[2 * k + 1] = -im / power;
  }
}

function weighBetween(values: Float64Array, first: number, last: number, gainAt: (bin: number) => number): void {
  for (let k = first; k <= last; k++) {
    const gain = gainAt(k);
    values[2 * k]! *= gain;
    values[2 * k + 1]! *= gain;
  }
}

type BandOf = Pick<Excitation, "sampleRate" | "sweptHz" | "growthS">;

interface BandGain {
  readonly gainAt: (bin: number) => number;
  /** First and last bin at which the gain is more than nothing, and between which it is 1. */
  readonly some: readonly [number, number];
  readonly full: readonly [number, number];
}

/** The deconvolution's own response by bin: 1 in the swept band, raised-cosine on log frequency outside. */
export function bandGain({ sampleRate, sweptHz, growthS }: BandOf, size: number): BandGain {
  const [startHz, endHz] = sweptHz;
  // Of a sweep that ends higher still, nothing is faded.
  const topHz = Math.max(endHz, Math.min(endHz * THIRD_OF_AN_OCTAVE, 0.49 * sampleRate));
  // A sound whose fades are not known may have none: then the edge lies inside the band, where there is energy.
  const inside = growthS === null;
  const low = inside
    ? ([startHz, startHz * THIRD_OF_AN_OCTAVE] as const)
    : ([startHz / THIRD_OF_AN_OCTAVE, startHz] as const);
  const high = inside ? ([endHz / THIRD_OF_AN_OCTAVE ** 0.5, endHz] as const) : ([endHz, topHz] as const);
  const binHz = sampleRate / size;
  const [rise, fall] = [riseBetween(...low), riseBetween(...high)];
  return {
    gainAt: (bin) => rise(bin * binHz) * (1 - fall(bin * binHz)),
    some: [Math.ceil(low[0] / binHz), Math.floor(high[1] / binHz)],
    full: [Math.ceil(low[1] / binHz), Math.floor(high[0] / binHz)],
  };
}

function riseBetween(fromHz: number, toHz: number): (frequencyHz: number) => number {
  const nepers = Math.log(toHz / fromHz);
  return (frequencyHz) => (frequencyHz <= fromHz ? 0 : raisedCosine(Math.log(frequencyHz / fromHz) / nepers));
}
