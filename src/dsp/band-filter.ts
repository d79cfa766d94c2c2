import { bandEdges, type Band } from "../standards/iec61260.js";

/**
 * A class 1 fractional-octave band-pass in closed form: the analogue Butterworth band-pass of prototype order 3.
 *
 * With Omega = (f/fm - fm/f) / (G^(1/2b) - G^(-1/2b)) the prototype's 1 / (1 + 2p + 2p^2 + p^3), p = j Omega, has magnitude
 * squared 1 / (1 + Omega^6): 3 dB down at the band edges. Its phase is that of a causal filter; the conjugate is the
 * same filter run backwards in time.
 *
 * Source: S. Butterworth, Experimental Wireless 7 (1930); limits: IEC 61260-1:2014 Table 1.
 */
export interface BandFilter {
  readonly exactHz: number;
  /** Distance between the band edges, Hz. */
  readonly bandwidthHz: number;
}

export function bandFilter(band: Pick<Band, "fraction" | "exactHz">): BandFilter {
  const [lowHz, highHz] = bandEdges(band);
  return { exactHz: band.exactHz, bandwidthHz: highHz - lowHz };
}

/** Prototype frequency: 0 at midband, -1 and +1 at the edges. */
export function prototypeFrequency({ exactHz, bandwidthHz }: BandFilter, frequencyHz: number): number {
  return (frequencyHz - (exactHz * exactHz) / frequencyHz) / bandwidthHz;
}

/** Frequency at which the prototype frequency has a value. */
export function filterFrequency({ exactHz, bandwidthHz }: BandFilter, prototype: number): number {
  const half = 0.5 * prototype * bandwidthHz;
  const root = Math.hypot(half, exactHz);
  // The difference is written as a quotient where it would cancel.
  return half >= 0 ? half + root : (exactHz * exactHz) / (root - half);
}

/**
 * Squared magnitude.
 *
 * @param frequencyHz - greater than 0
 * @returns 1 at midband, 0.5 at the edges
 */
export function filterPower(filter: BandFilter, frequencyHz: number): number {
  return 1 / (1 + prototypeFrequency(filter, frequencyHz) ** 6);
}

/**
 * Complex response of the causal filter.
 *
 * @param frequencyHz - greater than 0
 */
export function filterResponse(filter: BandFilter, frequencyHz: number): { re: number; im: number } {
  const omega = prototypeFrequency(filter, frequencyHz);
  const square = omega * omega;
  const power = 1 / (1 + square * square * square);
  return { re: power * (1 - 2 * square), im: power * omega * (square - 2) };
}
