import type { Measurement } from "../model.js";
import { roomDecay } from "../schema/room-decay.js";

export interface MeanDecay {
  readonly timeS: number;
  /** Standard uncertainty, the channels' errors taken as independent; null where one is not known. */
  readonly uncertaintyS: number | null;
  /** Whether every one of them was read over 30 dB. */
  readonly overThirtyDb: boolean;
}

/**
 * Arithmetic mean of channels' decay times in an octave.
 *
 * @param channels - at one position
 * @returns null where a channel has no decay time that is the room's
 */
export function meanDecay(channels: readonly Measurement[], nominalHz: number): MeanDecay | null {
  let sum = 0;
  let squares: number | null = 0;
  let overThirtyDb = true;
  for (const { bands } of channels) {
    const band = bands.find((one) => one.fraction === 1 && one.nominalHz === nominalHz);
    const decay = band && roomDecay(band);
    if (!decay) return null;
    sum += decay.timeS;
    squares = squares === null || decay.uncertaintyS === null ? null : squares + decay.uncertaintyS ** 2;
    overThirtyDb &&= decay.evaluation === "T30";
  }
  const count = channels.length;
  if (count === 0) return null;
  return { timeS: sum / count, uncertaintyS: squares === null ? null : Math.sqrt(squares) / count, overThirtyDb };
}
