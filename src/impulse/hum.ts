import { decimate } from "../dsp/decimate.js";
import { meanPower } from "../dsp/block-power.js";
import { transformSize } from "../dsp/fft.js";
import type { Signal } from "../model.js";
import type { Excitation } from "./excitation.js";
import type { FoundEvent } from "./event.js";

/** The mains in a recording. */
export interface Hum {
  readonly mainsHz: 50 | 60;
  /** All its lines up to 500 Hz together, mean square re full scale, dB. */
  readonly levelDb: number;
  /** The strongest line. */
  readonly strongestHz: number;
}

const MAINS_HZ = [50, 60] as const;
const HIGHEST_LINE_HZ = 500;
/** Enough for the lines, with room for the decimation's slope. */
const RATE = 2000;
/** When a sweep is past this its decay and all its harmonics lie above the lines. */
const SWEEP_PAST_HZ = 1000;
/** Lines of 50 and 60 Hz lie 10 Hz apart at the nearest; this tells them apart and averages three times in the shortest lead. */
const SEGMENT_S = 0.512;
const MARGIN_S = 0.05;
/** A line's share: the Hann window's main lobe is four bins wide. The mains themselves keep to 0.2 Hz. */
const LINE_BINS = 2;
const BESIDE_BINS: readonly [number, number] = [3, 5];
/** A line stands so far out of what lies beside it. Noise alone reaches 8 dB with three averages. */
const LEAST_PROMINENCE = 10 ** (12 / 10);

/**
 * Looks for lines of the mains before, under and after the sweeps.
 *
 * Once a sweep is past 1 kHz nothing that was played is left below 500 Hz, so the lines are looked for there as well as in
 * the lead. What counts is the median over these stretches: a note that sounded once is no hum.
 *
 * @param decayS - after so long the room's response has sunk into the noise
 * @returns null when no line stands out, or no stretch is long enough
 */
export function findHum(
  { samples, sampleRate }: Signal,
  excitation: Excitation,
  found: readonly FoundEvent[],
  decayS: number,
): Hum | null {
  const factor = Math.max(1, Math.floor(sampleRate / RATE));
  const rate = sampleRate / factor;
  const spectra = stretchesOf(samples.length / sampleRate, sampleRate, excitation, found, decayS).flatMap(
    ([fromS, toS]) =>
      spectrumOf(
        decimate(samples.subarray(Math.floor(fromS * sampleRate), Math.floor(toS * sampleRate)), factor),
        rate,
      ) ?? [],
  );
  if (spectra.length === 0) return null;
  const families = MAINS_HZ.map((mainsHz) => {
    const lines = linesOf(mainsHz).map((hz) => ({ hz, power: lowerMedian(spectra.map((one) => linePower(one, hz))) }));
    const own = lines.filter(({ hz }) => MAINS_HZ.every((other) => other === mainsHz || hz % other !== 0));
    return { mainsHz, lines, own: own.reduce((sum, { power }) => sum + power, 0) };
  });
  const family = families.reduce((a, b) => (b.own > a.own ? b : a));
  if (!(family.own > 0)) return null;
  const power = family.lines.reduce((sum, line) => sum + line.power, 0);
  const strongest = family.lines.reduce((a, b) => (b.power > a.power ? b : a));
  return { mainsHz: family.mainsHz, levelDb: 10 * Math.log10(power), strongestHz: strongest.hz };
}

function linesOf(mainsHz: number): number[] {
  return Array.from({ length: Math.floor(HIGHEST_LINE_HZ / mainsHz) }, (_, n) => mainsHz * (n + 1));
}

/** Where nothing below 500 Hz was played: before the first sound, and from late in each sweep to the next sound. */
function stretchesOf(
  lengthS: number,
  sampleRate: number,
  { growthS, sweptHz, zeroSample }: Excitation,
  found: readonly FoundEvent[],
  decayS: number,
): [number, number][] {
  const starts = found.map(({ startSample }) => startSample / sampleRate).sort((a, b) => a - b);
  const behind = found.flatMap(({ event, startSample }): [number, number][] => {
    if (event.kind !== "sweep") return [];
    const startS = startSample / sampleRate;
    const endS = startS + event.samples / sampleRate;
    const zeroS = startS + zeroSample / sampleRate;
    const pastS = growthS === null ? endS : zeroS + growthS * Math.log(SWEEP_PAST_HZ / sweptHz[0]);
    const next = starts.find((other) => other > startS) ?? lengthS;
    return [[pastS + decayS, Math.min(next, lengthS) - MARGIN_S]];
  });
  return [[0, (starts[0] ?? 0) - MARGIN_S], ...behind];
}

interface Spectrum {
  /** Mean square per bin. */
  readonly power: Float64Array;
  readonly binHz: number;
}

function spectrumOf(samples: Float64Array, rate: number): Spectrum | null {
  const segment = transformSize(SEGMENT_S * rate);
  if (samples.length < segment) return null;
  return { power: meanPower(samples, 0, samples.length, segment), binHz: rate / segment };
}

/** Mean square of one line; 0 where none stands out. */
function linePower({ power, binHz }: Spectrum, hz: number): number {
  const centre = Math.round(hz / binHz);
  const beside: number[] = [];
  for (let k = BESIDE_BINS[0]; k <= BESIDE_BINS[1]; k++) beside.push(power[centre - k] ?? 0, power[centre + k] ?? 0);
  const floor = median(beside);
  let most = 0;
  let sum = 0;
  for (let k = centre - LINE_BINS; k <= centre + LINE_BINS; k++) {
    most = Math.max(most, power[k] ?? 0);
    sum += Math.max(0, (power[k] ?? 0) - floor);
  }
  return most > LEAST_PROMINENCE * floor ? sum : 0;
}

/** Of two it is the lower. */
function lowerMedian(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[(sorted.length - 1) >> 1] ?? 0;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[sorted.length >> 1] ?? 0;
}
