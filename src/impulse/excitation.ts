import { forwardReal, transformSize } from "../dsp/fft.js";
import { peakOf } from "../dsp/peak.js";
import { synthesiseSweep } from "../dsp/sweep-signal.js";
import type { Signal, SweepRecipe } from "../model.js";
import { inverseOf } from "./inverse-filter.js";

/** What was played, as the recorder's clock hears it. */
export interface Excitation {
  readonly sampleRate: number;
  readonly sweptHz: readonly [number, number];
  /** The sweep's growth constant L in seconds, null when only the played sound is known. */
  readonly growthS: number | null;
  /** Where in the sound the instant of the start frequency is. */
  readonly zeroSample: number;
  readonly levelDbfs: number;
  /** A stretched copy can be made exactly. */
  readonly stretches: boolean;
  samples(clockRatio?: number): Float64Array;
  /** Half spectrum at the given size, kept for the next recording. */
  spectrum(size: number, clockRatio?: number): Float64Array;
  /** Half spectrum of its inverse, kept likewise. */
  inverse(size: number, clockRatio?: number): Float64Array;
}

/** Makes the excitation that a recipe describes. */
export function excitationFromRecipe(recipe: SweepRecipe): Excitation {
  return withMemory({
    sampleRate: recipe.sampleRate,
    sweptHz: [recipe.startHz, recipe.endHz],
    growthS: recipe.growthS,
    zeroSample: Math.round(recipe.fadeInS * recipe.sampleRate),
    levelDbfs: recipe.levelDbfs,
    stretches: true,
    make: (clockRatio) => synthesiseSweep(recipe, clockRatio),
  });
}

/**
 * Takes a played sound as the excitation: silence around it is cut, its band is where its energy per octave stays
 * within 6 dB of the middle.
 *
 * @throws {RangeError} if the sound is silent
 */
export function excitationFromSound(sound: Signal): Excitation {
  const { first, last, peak } = soundingPart(sound.samples);
  const samples = Float64Array.from(sound.samples.subarray(first, last + 1));
  return withMemory({
    sampleRate: sound.sampleRate,
    sweptHz: bandOf(samples, sound.sampleRate),
    growthS: null,
    zeroSample: 0,
    levelDbfs: 20 * Math.log10(peak),
    stretches: false,
    make: () => samples,
  });
}

function withMemory(
  parts: Omit<Excitation, "samples" | "spectrum" | "inverse"> & { make: (ratio: number) => Float64Array },
): Excitation {
  const { make, ...facts } = parts;
  const sounds = new Map<number, Float64Array>();
  const spectra = new Map<string, Float64Array>();
  const inverses = new Map<string, Float64Array>();
  const samples = (clockRatio = 1): Float64Array => remembered(sounds, clockRatio, () => make(clockRatio));
  const spectrum = (size: number, clockRatio = 1): Float64Array =>
    remembered(spectra, `${size} ${clockRatio}`, () => forwardReal(samples(clockRatio), size));
  return {
    ...facts,
    samples,
    spectrum,
    inverse: (size, clockRatio = 1) =>
      remembered(inverses, `${size} ${clockRatio}`, () => inverseOf(spectrum(size, clockRatio), facts)),
  };
}

/** Looks a value up, or makes it; keeps few, since a drifting recorder asks for a new one in every recording. */
function remembered<Key, Value>(store: Map<Key, Value>, key: Key, make: () => Value): Value {
  const known = store.get(key);
  if (known !== undefined) return known;
  const value = make();
  if (store.size >= 4) store.delete(store.keys().next().value as Key);
  store.set(key, value);
  return value;
}

function soundingPart(samples: ArrayLike<number>): { first: number; last: number; peak: number } {
  const peak = peakOf(samples);
  if (!(peak > 0)) throw new RangeError("the played sound is silent");
  const threshold = 1e-4 * peak;
  let first = 0;
  while (Math.abs(samples[first]!) <= threshold) first++;
  let last = samples.length - 1;
  while (Math.abs(samples[last]!) <= threshold) last--;
  return { first, last, peak };
}

/** The run of 1/24-octave energies around the strongest that stays within 6 dB of most: at its ends a sweep is 6 dB down. */
function bandOf(samples: Float64Array, sampleRate: number): [number, number] {
  const size = transformSize(samples.length);
  const spectrum = forwardReal(samples, size);
  const perOctave = 24;
  const lowestHz = 5;
  const count = Math.floor(perOctave * Math.log2(sampleRate / 2 / lowestHz));
  const energies = new Float64Array(count);
  for (let k = 1; k < size / 2; k++) {
    const slot = Math.floor(perOctave * Math.log2((k * sampleRate) / size / lowestHz));
    if (slot >= 0 && slot < count) energies[slot]! += spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2;
  }
  const sorted = Float64Array.from(energies).sort();
  const limit = 0.25 * sorted[Math.floor(0.75 * count)]!;
  let from = energies.indexOf(sorted[count - 1]!);
  let to = from;
  while (from > 0 && energies[from - 1]! > limit) from--;
  while (to < count - 1 && energies[to + 1]! > limit) to++;
  const edge = (slot: number): number => lowestHz * 2 ** (slot / perOctave);
  return [edge(from), Math.min(edge(to + 1), 0.45 * sampleRate)];
}
