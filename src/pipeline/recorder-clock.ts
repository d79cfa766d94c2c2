import { delayBetween } from "../dsp/delay-between.js";
import { clockByShape } from "../impulse/clock-by-shape.js";
import { type ClockDrift, clockDrift } from "../impulse/clock-drift.js";
import type { Excitation } from "../impulse/excitation.js";
import type { FoundEvent } from "../impulse/event.js";
import type { ImpulseResponse } from "../model.js";
import { LARGEST_DRIFT_PPM } from "./findings.js";
import { hearArrival, type Surroundings } from "./hear-sweep.js";

/** Of each response so much is compared, beginning so long before its arrival. */
const COMPARED_S = 0.08;
const BEFORE_S = 0.01;
/**
 * Loudspeakers with plain crossovers gain up to 1.3 dB of peak by a clock that undoes their delay; a thousandth, 5 dB and more, where
 * the sweep is as long as the usual one. Of a short one (growth 0.35 s: 1.1 dB) a thousandth is not told.
 */
const SHARPER_DB = 3;

/** Without markers: the first and the last sweep of one loudspeaker are the same sound too. */
export function driftFromRepeats(
  around: Surroundings,
  excitation: Excitation,
  sweeps: readonly FoundEvent[],
): ClockDrift | null {
  const first = sweeps[0];
  const last = sweeps.findLast(({ event }) => event.channel === first?.event.channel);
  if (!first || !last || first === last) return null;
  const { sampleRate } = around.signal;
  const responses = [first, last].map((sweep) => {
    const heard = hearArrival(around, excitation, sweep);
    if (!heard) return null;
    const { samples, arrivalSample } = heard.cut.impulse;
    const from = Math.round(arrivalSample - BEFORE_S * sampleRate);
    return {
      at: Math.round(heard.arrivalSample - BEFORE_S * sampleRate),
      samples: samples.subarray(from, from + Math.round(COMPARED_S * sampleRate)),
    };
  });
  const [a, b] = responses;
  if (!a || !b) return null;
  const delay = delayBetween(a.samples, b.samples, sampleRate, [200, 8000]);
  return clockDrift(b.at + delay.samples - a.at, last.event.atSample - first.event.atSample, delay.uncertaintySamples);
}

/** Less is left to the clock, s. */
const LEAST_LOST_S = 0.006;
/** Left and right may be so much farther from the microphone than one another. */
const FLIGHT_S = 0.003;
/** Of what is missing between the markers, the sweeps between them show all or nothing, a clock about half. */
const LEAST_SHARE = 0.25;

/**
 * Samples that are lost in the silence between two sounds move the second marker as a slow clock does, but the distance of the
 * sweeps does not follow.
 *
 * @param sweeps - where each was played, and where it arrived in the file
 * @param markersApart - samples between the first and the last marker as played
 * @returns how much is missing, s, negative where it came twice; null where the clock explains all
 */
export function lostBetween(
  { ppm }: ClockDrift,
  sweeps: readonly { readonly atSample: number; readonly arrivalSample: number }[],
  markersApart: number,
  sampleRate: number,
): number | null {
  const first = sweeps[0];
  const last = sweeps.at(-1);
  const lost = -ppm * 1e-6 * markersApart;
  if (!first || !last || first === last || Math.abs(lost) < LEAST_LOST_S * sampleRate) return null;
  const byClock = (last.atSample - first.atSample) * (1 + ppm * 1e-6);
  const off = last.arrivalSample - first.arrivalSample - byClock;
  const isClock = Math.abs(off) < Math.max(FLIGHT_S * sampleRate, LEAST_SHARE * Math.abs(lost));
  return isClock ? null : lost / sampleRate;
}

/** Where nothing was heard twice: the clock ratio at which every direct sound is far sharper, if that is a wrong rate. */
export function wrongByShape(impulses: readonly ImpulseResponse[], { growthS }: Excitation): number | null {
  if (growthS === null) return null;
  const shapes = impulses.map((impulse) => clockByShape(impulse, growthS));
  const isWrong = shapes.every(
    ({ ratio, gainDb }) => gainDb > SHARPER_DB && Math.abs(ratio - 1) > LARGEST_DRIFT_PPM * 1e-6,
  );
  return isWrong ? shapes.reduce((sum, { ratio }) => sum + ratio / shapes.length, 0) : null;
}
