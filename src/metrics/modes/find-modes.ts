import { type AgreedMode, type BandModes, bandModes } from "./band-modes.js";
import { stretchOf } from "./damped-spectrum.js";
import { isFirm } from "./is-firm.js";
import type { LowResponse } from "./low-response.js";
import type { Pole } from "./pole.js";
import { polish } from "./polish.js";
import { subBands } from "./sub-band.js";

/** The spectrum is fitted so far to either side of a band. Others are part of the sum: modes from far, the rest from near. */
const FITTED_HZ = 20;
const MODES_HZ = 120;
const REST_HZ = 35;
/** Where more oscillations meet, it is not the noise that limits what is known of each, and nothing is won. */
const MOST_POLES = 16;
/** Under this the sweep excites nothing. */
const LOWEST_HZ = 15;

/** Modes overlap from there up when so many bands in a row hold several candidates and no firm mode among them. */
const BANDS_WITHOUT = 2;
const SEVERAL = 2;

/** What a search gave. */
export interface FoundModes {
  /** By rising frequency. */
  readonly modes: readonly AgreedMode[];
  /** What was searched; above it modes overlap. Null where nothing could be. */
  readonly rangeHz: readonly [number, number] | null;
}

/**
 * Finds the modes of a room that ring in several responses, each more or less: one room, many places and loudspeakers.
 *
 * @param responses - of one sample rate
 */
export function findModes(responses: readonly LowResponse[]): FoundModes {
  const found = searchUpwards(responses);
  const modes = found.flatMap((one) => polished(one, found, responses)).sort((a, b) => a.frequencyHz - b.frequencyHz);
  const [first, last] = [found[0], found.at(-1)];
  return { modes, rangeHz: first && last ? [first.band.coreHz[0], last.band.coreHz[1]] : null };
}

function searchUpwards(responses: readonly LowResponse[]): BandModes[] {
  const found: BandModes[] = [];
  let without = 0;
  for (const band of responses[0] ? subBands(responses[0].sampleRate) : []) {
    const one = bandModes(responses, band);
    if (!one) continue;
    found.push(one);
    if (one.modes.some(isFirm)) without = 0;
    else if (one.modes.length >= SEVERAL) without++;
    if (without >= BANDS_WITHOUT) break;
  }
  return found;
}

/** A band's modes, moved to where they fit best together with what was found next to them. */
function polished(own: BandModes, all: readonly BandModes[], responses: readonly LowResponse[]): AgreedMode[] {
  const { band, modes, startS, lookS } = own;
  if (!modes.some(isFirm)) return [...modes];
  const within = (pole: Pole, byHz: number): boolean =>
    pole.frequencyHz > band.coreHz[0] - byHz && pole.frequencyHz < band.coreHz[1] + byHz;
  const everyMode = all.flatMap((one) => one.modes);
  const near = everyMode.filter((mode) => isFirm(mode) && within(mode, FITTED_HZ));
  const others: Pole[] = [
    ...everyMode.filter((mode) => !near.includes(mode) && within(mode, MODES_HZ)),
    ...all.flatMap((one) => one.others).filter((pole) => within(pole, REST_HZ)),
  ];
  if (near.length + others.length > MOST_POLES) return [...modes];
  const rangeHz = [Math.max(LOWEST_HZ, band.coreHz[0] - FITTED_HZ), band.coreHz[1] + FITTED_HZ] as const;
  const stretch = stretchOf(band.lowRate, startS, lookS, rangeHz);
  const moved = polish(
    near,
    others,
    responses.map(({ samples }) => samples),
    stretch,
  );
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
