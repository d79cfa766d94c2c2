import { bandEdges } from "../../src/standards/iec61260.js";
import { POPULAR_MUSIC_DB, POPULAR_MUSIC_SPREAD_DB } from "../../src/standards/popular-music.js";
import { BANDS } from "../../src/translation/bands.js";
import type { HeardOn, MixedOn } from "../../src/translation/drift.js";

/** Curves by third octave whose truth is known in closed form. */

export const zeros: readonly number[] = BANDS.map(() => 0);
export const popular = { levelDb: POPULAR_MUSIC_DB, spreadDb: POPULAR_MUSIC_SPREAD_DB };

export const at = (nominalHz: number): number => BANDS.findIndex((band) => band.nominalHz === nominalHz);

/** A second-order low shelf (Butterworth numerator and denominator): power, half its decibels at the midpoint. */
export function shelfPower(hz: number, midpointHz: number, gainDb: number): number {
  const half = 10 ** (gainDb / 40);
  const x4 = (hz / midpointHz) ** 4;
  return (half ** 2 + x4) / (half ** -2 + x4);
}

/** Mean power over each third octave, in steps far finer than the curve. */
export function byBand(power: (hz: number) => number): number[] {
  const steps = 200;
  return BANDS.map((band) => {
    const [fromHz, toHz] = bandEdges(band);
    let sum = 0;
    for (let n = 0; n < steps; n++) sum += power(fromHz * (toHz / fromHz) ** ((n + 0.5) / steps));
    return 10 * Math.log10(sum / steps);
  });
}

export function mixedOn(id: string, deviationDb: readonly number[], parts: Partial<MixedOn> = {}): MixedOn {
  return { id, deviationDb, uncertaintyDb: zeros, controlled: BANDS.map(() => true), ...parts };
}

export function heardOn(id: string, deviationDb: readonly number[], parts: Partial<HeardOn> = {}): HeardOn {
  return { id, name: id, kind: "monitor", deviationDb, uncertaintyDb: zeros, envelope: null, ...parts };
}

export const neutral = heardOn("neutral", zeros, { kind: "neutral" });
