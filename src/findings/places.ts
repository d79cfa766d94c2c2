import type { BandMetrics, Measurement, Results } from "../model.js";

/** Finding measurements and bands in results. */

/** What was recorded of a monitor at the mix position, sums of left and right left out. */
export function atMix(results: Results, monitor: string): Measurement[] {
  const mix = results.session.positions.find(({ kind }) => kind === "mix")?.id;
  return recorded(results, monitor).filter(({ position }) => position === mix);
}

/** Everything recorded of a monitor, at whatever place within reach of the mix position. */
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
