import { BASS_LINE, hearingBandwidthHz } from "./bass-limits.js";

/** A power spectrum of one frame and how to read it. */
export interface FrameSpectrum {
  /** Mean squares: the bins of a sine's lobe add up to its power. */
  readonly power: Float64Array;
  readonly binHz: number;
  /** Half the width of a sine's lobe, Hz. */
  readonly lobeHz: number;
}

/** A partial that stands out of the mix, before any device. */
export interface Partial {
  readonly order: number;
  readonly frequencyHz: number;
  /** First and last bin of its own, and of the hearing's band around it. */
  readonly lobe: readonly [number, number];
  readonly band: readonly [number, number];
}

/** @returns the frequency of the strongest peak in the range of fundamentals; null where there is none */
export function fundamentalOf({ power, binHz }: FrameSpectrum): number | null {
  const [fromHz, toHz] = BASS_LINE.fundamentalHz;
  const peak = highestPeak(power, Math.ceil(fromHz / binHz), Math.floor(toHz / binHz));
  return peak === null ? null : betweenBins(power, peak) * binHz;
}

/** The partials from the second up that stand out of what lies around them. */
export function partialsOf({ power, binHz, lobeHz }: FrameSpectrum, fundamentalHz: number): Partial[] {
  const found: Partial[] = [];
  const [first, last]: readonly [number, number] = BASS_LINE.partials;
  for (let order = first; order <= last && order * fundamentalHz <= BASS_LINE.highestHz; order++) {
    const hz = order * fundamentalHz;
    const near = lobeHz / 2;
    const peak = highestPeak(power, Math.ceil((hz - near) / binHz), Math.floor((hz + near) / binHz));
    if (peak === null) continue;
    const around = stretch(peak, fundamentalHz / 2 / binHz);
    const median = medianOf(power.slice(around[0], around[1] + 1));
    if (power[peak]! < median * 10 ** (BASS_LINE.overMedianDb / 10)) continue;
    found.push({
      order,
      frequencyHz: peak * binHz,
      lobe: stretch(peak, lobeHz / binHz),
      band: stretch(peak, hearingBandwidthHz(peak * binHz) / 2 / binHz),
    });
  }
  return found;
}

function stretch(centre: number, half: number): [number, number] {
  return [Math.max(0, Math.ceil(centre - half)), Math.floor(centre + half)];
}

function highestPeak(power: Float64Array, from: number, to: number): number | null {
  let highest: number | null = null;
  for (let k = Math.max(1, from); k <= to; k++) {
    const here = power[k]!;
    const isPeak = here > 0 && here >= power[k - 1]! && here >= power[k + 1]!;
    if (isPeak && (highest === null || here > power[highest]!)) highest = k;
  }
  return highest;
}

/** A parabola through the logarithms of a peak and its neighbours. */
function betweenBins(power: Float64Array, peak: number): number {
  const [before, at, after] = [-1, 0, 1].map((step) => Math.log(Math.max(power[peak + step]!, Number.MIN_VALUE)));
  const bend = before! - 2 * at! + after!;
  return bend < 0 ? peak + Math.max(-0.5, Math.min(0.5, (0.5 * (before! - after!)) / bend)) : peak;
}

function medianOf(values: Float64Array): number {
  values.sort();
  const middle = values.length >> 1;
  return values.length % 2 === 1 ? values[middle]! : 0.5 * (values[middle - 1]! + values[middle]!);
}
