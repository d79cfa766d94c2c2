import { energyMeanDb } from "../dsp/energy-mean.js";
import type { BandMetrics, Measurement, Results } from "../model.js";
import { ENOUGH_PLACES } from "./limits.js";

/** Finding measurements and bands in results. */

/** What was recorded of a monitor at the mix position, sums of left and right left out; without such a place, all near it. */
export function atMix(results: Results, monitor: string): Measurement[] {
  const mix = results.session.positions.find(({ kind }) => kind === "mix")?.id;
  const own = recorded(results, monitor);
  return mix === undefined ? aroundMix(results, monitor) : own.filter(({ position }) => position === mix);
}

/** Everything recorded of a monitor at places within reach of the mix position. */
export function aroundMix(results: Results, monitor: string): Measurement[] {
  const near = new Set(results.session.positions.flatMap(({ id, kind }) => (kind === "room" ? [] : [id])));
  return recorded(results, monitor).filter(({ position }) => near.has(position));
}

function recorded(results: Results, monitor: string): Measurement[] {
  return results.measurements.filter((one) => one.monitor === monitor && !one.derived && one.quality.usable);
}

export function thirdOctaves(measurement: Measurement): BandMetrics[] {
  return measurement.bands.filter(({ fraction }) => fraction === 3);
}

/** Level of a third octave over the places around the mix position. */
export interface AroundLevel {
  readonly levelDb: number;
  /** Standard deviation from place to place, dB. */
  readonly spreadDb: number;
  /** Standard uncertainty of the mean, dB. */
  readonly uncertaintyDb: number;
  readonly places: number;
}

/**
 * Energy mean over places around the mix position, of the channels given.
 *
 * @returns null with fewer than three places, or where a level is not known
 */
export function levelAround(
  results: Results,
  monitor: string,
  nominalHz: number,
  channels: readonly Measurement["channel"][],
): AroundLevel | null {
  const own = aroundMix(results, monitor).filter(({ channel }) => channels.includes(channel));
  const perPlace = [...new Set(own.map(({ position }) => position))].map((position) =>
    energyMeanDb(
      own
        .filter((one) => one.position === position)
        .map((one) => thirdOctaves(one).find((band) => band.nominalHz === nominalHz)?.levelDb ?? null),
    ),
  );
  const levels = perPlace.filter((level) => level !== null);
  const levelDb = energyMeanDb(perPlace);
  if (levels.length < ENOUGH_PLACES || levelDb === null) return null;
  const mean = levels.reduce((sum, level) => sum + level, 0) / levels.length;
  const squares = levels.reduce((sum, level) => sum + (level - mean) ** 2, 0);
  const spreadDb = Math.sqrt(squares / (levels.length - 1));
  return { levelDb, spreadDb, uncertaintyDb: spreadDb / Math.sqrt(levels.length), places: levels.length };
}

/**
 * Groups neighbours in a row.
 *
 * @returns runs of entries that all hold, in order
 */
export function runsOf<Entry>(entries: readonly Entry[], holds: (entry: Entry) => boolean): Entry[][] {
  const runs: Entry[][] = [];
  let open = false;
  for (const entry of entries) {
    const inside = holds(entry);
    if (inside && open) runs.at(-1)!.push(entry);
    else if (inside) runs.push([entry]);
    open = inside;
  }
  return runs;
}

/** The one of a run that stands out most. */
export function worstOf<Entry>(run: readonly Entry[], size: (entry: Entry) => number): Entry {
  return run.reduce((a, b) => (size(b) > size(a) ? b : a));
}
