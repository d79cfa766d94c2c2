import { MEAN_TIME_RANGE_HZ } from "../../standards/bs1116.js";
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
 * @returns T30 counts where there is one, else T20; null, with the reason in `method`, when a band has neither
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
  const missing = bands.filter(({ t20S, t30S }) => (t30S ?? t20S) === null);
  if (missing.length > 0) {
    return { timeS: null, method: `null, no T20 at ${missing.map(({ nominalHz }) => nominalHz).join(", ")} Hz` };
  }
  const fromT20 = bands.filter(({ t30S }) => t30S === null).length;
  const sum = bands.reduce((total, { t20S, t30S }) => total + (t30S ?? t20S ?? 0), 0);
  const method =
    fromT20 === 0
      ? "T30"
      : fromT20 === bands.length
        ? "T20"
        : `T30, T20 in ${fromT20} ${fromT20 === 1 ? "band" : "bands"}`;
  return { timeS: sum / bands.length, method };
}
