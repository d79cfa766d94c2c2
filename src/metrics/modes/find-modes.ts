import { type AgreedMode, type BandModes, bandModes } from "./band-modes.js";
import { stretchOf } from "./damped-spectrum.js";
import { isFirm } from "./is-firm.js";
import type { LowResponse } from "./low-response.js";
import type { Pole } from "./pole.js";
import { polish } from "./polish.js";
import { subBands } from "./sub-band.js";

/** The spectrum is fitted so far to either side of a band, with modes up to so far as parts of the sum. */
const FITTED_HZ = 20;
const HEARD_HZ = 120;

/**
 * Finds the modes of a room that ring in several responses, each more or less: one room, many places and loudspeakers.
 *
 * @param responses - of one sample rate
 * @returns by rising frequency
 */
export function findModes(responses: readonly LowResponse[]): AgreedMode[] {
  const sampleRate = responses[0]?.sampleRate;
  if (sampleRate === undefined) return [];
  const found = subBands(sampleRate).flatMap((band) => bandModes(responses, band) ?? []);
  return found.flatMap((one) => polished(one, found, responses)).sort((a, b) => a.frequencyHz - b.frequencyHz);
}

/** A band's modes, moved to where they fit best together with what was found next to them. */
function polished(own: BandModes, all: readonly BandModes[], responses: readonly LowResponse[]): AgreedMode[] {
  const { band, modes, startS, lookS } = own;
  if (!modes.some(isFirm)) return [...modes];
  const [fromHz, toHz] = [band.coreHz[0] - FITTED_HZ, band.coreHz[1] + FITTED_HZ];
  const everything = all.flatMap((one) => [...one.modes, ...one.others]);
  const firm = all.flatMap((one) => one.modes.filter(isFirm));
  const near = firm.filter((mode) => mode.frequencyHz > fromHz && mode.frequencyHz < toHz);
  const others: Pole[] = everything.filter(
    (pole) => !near.some((mode) => mode === pole) && pole.frequencyHz > fromHz - HEARD_HZ + FITTED_HZ && pole.frequencyHz < toHz + HEARD_HZ - FITTED_HZ,
  );
  const stretch = stretchOf(band.lowRate, startS, lookS, [Math.max(10, fromHz), toHz]);
  const moved = polish(near, others, responses.map(({ samples }) => samples), stretch);
  if (!moved) return [...modes];
  return modes.map((mode) => {
    const place = near.indexOf(mode);
    const to = moved[place];
    if (!to) return mode;
    return {
      ...mode,
      frequencyHz: to.frequencyHz,
      dampingPerS: to.dampingPerS,
      frequencyUncertaintyHz: Math.hypot(mode.frequencyUncertaintyHz, to.frequencyNoiseHz),
      dampingUncertaintyPerS: Math.hypot(mode.dampingUncertaintyPerS, to.dampingNoisePerS),
    };
  });
}
