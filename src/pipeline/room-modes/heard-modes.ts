import type { AgreedMode } from "../../metrics/modes/band-modes.js";
import type { LowResponse } from "../../metrics/modes/low-response.js";
import { bumpDb } from "../../metrics/modes/mode-bump.js";
import type { MeasuredMode, MonitorResult } from "../../model.js";
import { audibleResonanceDb } from "../../standards/audible-deviation.js";
import { audibleModeS } from "../../standards/modal-decay.js";
import { overLimit } from "../../standards/real-difference.js";
import type { FoundMode } from "./measured-modes.js";

/** A monitor with its sides at the mix position; `place` is that of the modes' amplitudes. */
export interface AtMix {
  readonly monitor: MonitorResult;
  readonly sides: readonly { readonly low: LowResponse; readonly place: number }[];
}

/**
 * Judges whether a mode is heard: it rings longer than what stays unheard, and its bump is high enough to be heard as well. A long
 * decay of a mode that raises nothing carries too little.
 *
 * @param ringing - all that rings in the mode or group
 */
export function heardMode(mode: FoundMode, ringing: readonly AgreedMode[], atMix: readonly AtMix[]): MeasuredMode {
  const { frequencyHz, rangeHz, t60S, t60UncertaintyS } = mode;
  const unheardS = audibleModeS(frequencyHz);
  const heardFromDb = audibleResonanceDb(frequencyHz / (rangeHz[1] - rangeHz[0]));
  const bumps = atMix.flatMap(({ monitor, sides }) => {
    // Under its end a monitor excites so little that a bump there is no part of what is heard of it.
    if (sides.length === 0 || frequencyHz < (monitor.extension?.minus10Hz ?? 0)) return [];
    const raisedDb = Math.max(
      ...sides.map(({ low, place }) =>
        bumpDb(
          low,
          ringing.map((one) => ({ ...one, amplitude: one.amplitudes[place]!, phase: one.phases[place]! })),
        ),
      ),
    );
    return [{ monitor: monitor.id, raisedDb, heardFromDb }];
  });
  const verdict = unheardS === null || t60S === null ? null : overLimit(t60S, unheardS, t60UncertaintyS);
  return { ...mode, unheardS, bumps, audible: audible(verdict, bumps) };
}

function audible(verdict: ReturnType<typeof overLimit> | null, bumps: MeasuredMode["bumps"]): MeasuredMode["audible"] {
  // However long it is: what raises nothing is not heard. That needs no decay time.
  if (bumps.length > 0 && !bumps.some(({ raisedDb, heardFromDb }) => raisedDb > heardFromDb)) return false;
  if (verdict === "within") return false;
  if (verdict === null || bumps.length === 0) return null;
  return verdict === "over" ? true : null;
}
