import { MEAN_TIME_RANGE_HZ } from "../../standards/bs1116.js";
import { type RoomDecay, roomDecay } from "../../schema/room-decay.js";
import type { DecayMetrics } from "./band-metrics.js";

export interface Reverberation {
  /** Mean of the 500 Hz and 1 kHz octaves. */
  readonly tMidS: number | null;
  /** Mean of the third octaves from 200 Hz to 4 kHz. */
  readonly tmS: number | null;
  /** What the figures are made of, or why one is missing. */
  readonly method: string;
}

const MID_HZ = [500, 1000];
/** Third octaves from 200 Hz to 4 kHz. */
const MEAN_TIME_BANDS = 14;

/**
 * Sums up a decay at one position in two figures.
 *
 * @returns of each band the time that `roomDecay` chooses; null, with the reason in `method`, when a band has none
 * @remarks Source: ISO 3382-1:2009 Table A.1 note for T mid, from memory; ITU-R BS.1116-3 and EBU Tech 3276 for Tm.
 */
export function reverberation(bands: readonly DecayMetrics[]): Reverberation {
  const [lowest, highest] = MEAN_TIME_RANGE_HZ;
  const octaves = bands.filter(({ fraction, nominalHz }) => fraction === 1 && MID_HZ.includes(nominalHz));
  const thirds = bands.filter(
    ({ fraction, nominalHz }) => fraction === 3 && nominalHz >= lowest && nominalHz <= highest,
  );
  const mid = meanTime(octaves, MID_HZ.length);
  const mean = meanTime(thirds, MEAN_TIME_BANDS);
  return {
    tMidS: mid.timeS,
    tmS: mean.timeS,
    method: `T mid, octaves 500 Hz and 1 kHz: ${mid.method}; Tm, third octaves 200 Hz to 4 kHz: ${mean.method}`,
  };
}

function meanTime(bands: readonly DecayMetrics[], wanted: number): { timeS: number | null; method: string } {
  if (bands.length < wanted) return { timeS: null, method: "null, not every band was swept" };
  const missing = bands.filter((band) => !roomDecay(band));
  if (missing.length > 0) {
    return { timeS: null, method: `null, no decay time at ${missing.map(({ nominalHz }) => nominalHz).join(", ")} Hz` };
  }
  const decays = bands.flatMap((band) => roomDecay(band) ?? []);
  const timeS = decays.reduce((sum, decay) => sum + decay.timeS, 0) / bands.length;
  return { timeS, method: methodOf(decays.map(({ evaluation }) => evaluation)) };
}

/** What the times were read from: the furthest followed, then in how many bands another stands in. */
function methodOf(evaluations: readonly RoomDecay["evaluation"][]): string {
  const kinds = (["T30", "T20", "late"] as const).map((kind) => ({
    name: kind === "late" ? "late decay" : kind,
    count: evaluations.filter((one) => one === kind).length,
  }));
  const [main, ...others] = kinds.filter(({ count }) => count > 0);
  const bandsOf = (count: number): string => (count === 1 ? "1 band" : `${count} bands`);
  return [main!.name, ...others.map(({ name, count }) => `${name} in ${bandsOf(count)}`)].join(", ");
}
