import { NO_SOUND, type BandPower } from "./listen/mix-spectrum.js";
import type { Programme } from "./heard.js";

/**
 * A mix as programme: its long-term spectrum, whatever its level.
 *
 * Where it holds nothing, which no decibel says, its level is that of one step of 24 bits: it can neither be heard there nor weigh
 * anything. Such bands are named in `empty`.
 *
 * @param bands - long-term powers of both sides
 * @example mixProgramme("song.wav", all bands of power 1).levelDb // all 0 dB
 */
export function mixProgramme(name: string, bands: readonly BandPower[]): Programme {
  const powers = bands.map(({ left, right }) => (left + right) / 2);
  return {
    name,
    levelDb: powers.map((power) => 10 * Math.log10(Math.max(power, NO_SOUND))),
    empty: powers.map((power) => power < NO_SOUND),
  };
}
