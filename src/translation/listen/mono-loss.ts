import { type BandPower, NO_SOUND } from "./mix-spectrum.js";

/** What a third octave loses when left and right are summed. */
export interface MonoLoss {
  readonly nominalHz: number;
  /** rho: 1 when both sides are the same, 0 when they have nothing in common, -1 when one is the other upside down. */
  readonly correlation: number | null;
  /** 0 or less, re a band that both sides have in common. */
  readonly lossDb: number | null;
  readonly reason: "no-sound" | "vanishes" | null;
  /** Below 0.3 worth a note, below -0.1 a warning: choices of ours. */
  readonly says: "fine" | "note" | "warning" | null;
}

const NOTE_BELOW = 0.3;
/** Sides that have nothing in common come out a little below 0 as often as above. */
const WARN_BELOW = -0.1;
/** Less than -60 dB is as good as gone. */
const VANISHES = 1e-6;

/**
 * How much of a band is lost in mono.
 *
 * @returns `10 lg((1 + rho) / 2)`, `rho = 2 Re<L R*> / (<L^2> + <R^2>)`
 * @remarks Source: arithmetic of the sum of two signals; the limits are choices of ours.
 * @example monoLoss({ nominalHz: 1000, left: 1, right: 1, cross: 0 }).lossDb // -3.01
 */
export function monoLoss({ nominalHz, left, right, cross }: BandPower): MonoLoss {
  if (left + right < NO_SOUND) return { nominalHz, correlation: null, lossDb: null, reason: "no-sound", says: null };
  const correlation = (2 * cross) / (left + right);
  const says = correlation < WARN_BELOW ? "warning" : correlation < NOTE_BELOW ? "note" : "fine";
  const share = (1 + correlation) / 2;
  if (share < VANISHES) return { nominalHz, correlation, lossDb: null, reason: "vanishes", says };
  return { nominalHz, correlation, lossDb: Math.min(0, 10 * Math.log10(share)), reason: null, says };
}
