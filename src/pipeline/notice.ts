import { energyOf } from "../dsp/energy.js";
import type { CutResponse } from "../impulse/cut-response.js";
import type { Excitation } from "../impulse/excitation.js";
import type { FoundEvent } from "../impulse/event.js";
import { findJumps } from "../impulse/jumps.js";
import type { Residual } from "../impulse/residual.js";
import { strangeCells } from "../impulse/strange-cells.js";
import type { Signal } from "../model.js";
import type { Noticed } from "./noticed.js";

/** Notes down what one sweep tells of what went wrong, before what it was made from is let go. */
export function notice(
  signal: Signal,
  excitation: Excitation,
  { event, startSample }: FoundEvent,
  { arrivalLag, arrivalInFileS }: CutResponse,
  residual: Residual | null,
  decaySamples: number,
  broken: Noticed["broken"],
): Omit<Noticed, "isDistorted"> {
  const { samples, sampleRate } = signal;
  const first = Math.max(0, Math.round(startSample));
  const end = Math.min(samples.length, first + event.samples);
  const sweepDb = 10 * Math.log10(energyOf(samples, first, end) / (end - first));
  return {
    spanS: [first / sampleRate, end / sampleRate],
    zeroS: arrivalInFileS,
    decayS: decaySamples / sampleRate,
    sweepDb,
    jumps: residual ? findJumps(signal, residual, excitation, arrivalLag) : [],
    broken,
    strange: residual ? strangeCells(residual, sweepDb) : [],
  };
}
