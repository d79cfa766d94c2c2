import { standOutDb } from "../../comparison/modes/stand-out.js";
import type { MeasuredMode, Measurement, MonitorResult } from "../../model.js";
import { audibleResonanceDb } from "../../standards/audible-deviation.js";
import { audibleModeS } from "../../standards/modal-decay.js";
import { overLimit } from "../../standards/real-difference.js";
import type { FoundMode } from "./measured-modes.js";

/** A monitor with what was recorded of it at the mix position. */
export interface AtMix {
  readonly monitor: MonitorResult;
  readonly sides: readonly Measurement[];
}

/**
 * Judges whether a mode is heard: it rings longer than what stays unheard, and its bump stands out of the response as well. A
 * long decay that a response does not show carries too little to be heard.
 */
export function heardMode(mode: FoundMode, atMix: readonly AtMix[]): MeasuredMode {
  const { frequencyHz, rangeHz, t60S, t60UncertaintyS } = mode;
  const unheardS = audibleModeS(frequencyHz);
  const heardDb = audibleResonanceDb(frequencyHz / (rangeHz[1] - rangeHz[0]));
  const standsOut = atMix.flatMap(({ monitor, sides }) => {
    // Under its end a monitor excites so little that a bump there is no part of what is heard of it.
    if (frequencyHz < (monitor.extension?.minus10Hz ?? 0)) return [];
    const over = sides.flatMap(({ response }) => standOutDb(response, rangeHz) ?? []);
    return over.length === 0 ? [] : [{ monitor: monitor.id, overDb: Math.max(...over), heardDb }];
  });
  const verdict = unheardS === null || t60S === null ? null : overLimit(t60S, unheardS, t60UncertaintyS);
  return { ...mode, unheardS, standsOut, audible: audible(verdict, standsOut) };
}

function audible(
  verdict: ReturnType<typeof overLimit> | null,
  standsOut: MeasuredMode["standsOut"],
): MeasuredMode["audible"] {
  if (verdict === "within") return false;
  if (verdict === null || standsOut.length === 0) return null;
  if (!standsOut.some(({ overDb, heardDb }) => overDb > heardDb)) return false;
  return verdict === "over" ? true : null;
}
