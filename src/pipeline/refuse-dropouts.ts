import { peakOf } from "../dsp/peak.js";
import type { Signal } from "../model.js";
import { heldSamples } from "../recording/held-samples.js";
import * as findings from "./findings/signal.js";
import { comesBack, countBlocks, countSeparate, type Noticed } from "./noticed.js";

/** Crests within this share of the highest may have been cut off, so many samples from where the cut shows. */
const RAIL = 0.97;
const RAIL_REACH = 8;
/** A jump is in one block, or on the border of two, and rings in the response's edges for one or two more. */
const BLOCKS_PER_JUMP = 4;
const JUMPS_PER_PLACE = 2;

/**
 * Refuses a recording in which samples are missing or came twice: what was recorded after that has another place in time.
 *
 * @throws {InputError} then
 */
export function refuseDropouts(
  file: string,
  signal: Signal,
  noticed: readonly Noticed[],
  growthS: number | null,
): void {
  const { samples, sampleRate } = signal;
  const fromS = Math.min(...noticed.map(({ spanS }) => spanS[0]));
  const toS = Math.max(...noticed.map(({ spanS, decayS }) => spanS[1] + decayS));
  const held = heldSamples(signal, fromS * sampleRate, toS * sampleRate);
  const jumps = noticed.flatMap((one) => one.jumps).filter(({ persists }) => persists);
  if (held.length === 0 && jumps.length === 0) return;

  const peak = peakOf(samples);
  // A crest that is cut off stays on one value and leaves it with an edge: that is another finding.
  const isAtRail = ({ sample }: { readonly sample: number }): boolean =>
    samples.slice(Math.max(0, sample - RAIL_REACH), sample + RAIL_REACH).some((value) => Math.abs(value) > RAIL * peak);
  const lost = held.filter((one) => !isAtRail(one));
  const leapsOf = ({ jumps: all }: Noticed): { atS: number }[] =>
    all.filter((one) => one.persists && !isAtRail(one)).map(({ sample }) => ({ atS: sample / sampleRate }));
  const leaps = noticed.flatMap(leapsOf);
  if ((!lost[0] && !leaps[0]) || noticed.some((one) => one.isDistorted(() => 0))) return;
  if (lost[0]) throw findings.heldFor(file, lost[0].sample / sampleRate, lost[0].count, lost.length);
  if (!leaps[0]) return;
  const places = countSeparate(leaps);
  // A lossy link leaps from frame to frame too, but leaves its mark between the leaps as well.
  const blocks = noticed.reduce((sum, { strange }) => sum + countBlocks(strange), 0);
  // No buffer is lost at the same note of two sweeps; a limiter takes hold there.
  if (comesBack(noticed, noticed.map(leapsOf), growthS)) throw findings.leaping(file, leaps[0].atS);
  const isLossy = blocks > BLOCKS_PER_JUMP * places || leaps.length > JUMPS_PER_PLACE * places;
  throw isLossy ? findings.leaping(file, leaps[0].atS) : findings.jumped(file, leaps[0].atS, places);
}
