import { energyMeanDb } from "../../dsp/energy-mean.js";
import type { Results } from "../../model.js";
import { bandEdges } from "../../standards/iec61260.js";
import { realDifference } from "../../standards/real-difference.js";
import { ALIGNMENT_HZ, type BandCurve, minus, rangeLevelDb, rangeUncertaintyDb, rootSum } from "../band-curve.js";
import { energyMeanUncertaintyDb } from "../../dsp/energy-mean-uncertainty.js";
import { standAbove } from "../stand-above.js";

export type Shown = Results["comparisons"][number]["shows"][number];

/** All limits here are choices of ours. A monitor's own level is its mean over this range. */
const OWN_HZ = [200, 2000] as const;
const MIDDLE_HZ = 1000;
/** What lies deeper under a monitor's own level it hides. */
const HIDDEN_DB = -10;
/** Less apart, one still hears on the other what is there. */
const LEAST_DB = 3;

/**
 * Finds the ranges in which, levels aligned over 200 Hz-4 kHz, one monitor shows what the other hides.
 *
 * `reach`: past the end of the other, where that lies more than 10 dB under its own 200 Hz-2 kHz mean for good, while the first
 * is not. `level`: elsewhere, where the two differ by more than 3 dB and than the expanded uncertainty, and
 * the louder is not hidden itself. Third octaves that follow one another make one range.
 *
 * The uncertainty is that of the two curves and of their alignment, taken as independent though part of it cancels. A level
 * under the noise is no higher than it reads: its doubt there is what the noise can be of it.
 *
 * @param a - third octaves at one position
 * @param b - third octaves of the other at the same position
 * @returns by frequency; none where the curves cannot be aligned
 */
export function shows(a: NamedCurve, b: NamedCurve): Shown[] {
  const [first, second] = [aligned(a), aligned(b)];
  if (!first || !second) return [];
  const ranges: Range[] = [];
  for (const [k, nominalHz] of first.curve.nominalHz.entries()) {
    const other = second.curve.nominalHz.indexOf(nominalHz);
    const found = judge(first, k, second, other) ?? judge(second, other, first, k);
    const last = ranges.at(-1);
    if (!found) continue;
    if (last?.kind === found.kind && last.loud === found.loud && last.bands.at(-1) === k - 1) last.bands.push(k);
    else ranges.push({ ...found, bands: [k] });
  }
  return ranges.map((range) => describe(range, first.curve));
}

export interface NamedCurve {
  readonly id: string;
  readonly curve: BandCurve;
}

interface Aligned {
  readonly id: string;
  readonly curve: BandCurve;
  readonly alignmentDb: number;
  readonly alignmentUncertaintyDb: number | null;
  /** Re its own level, dB. */
  readonly own: readonly (number | null)[];
  /** First and last band before it ends for good. */
  readonly ends: readonly [number, number] | null;
}

interface Range {
  readonly kind: Shown["kind"];
  readonly loud: Aligned;
  readonly quiet: Aligned;
  /** By index of the first curve. */
  readonly bands: number[];
}

function aligned({ id, curve }: NamedCurve): Aligned | null {
  const alignmentDb = rangeLevelDb(curve, ...ALIGNMENT_HZ);
  const ownDb = rangeLevelDb(curve, ...OWN_HZ);
  if (alignmentDb === null || ownDb === null) return null;
  const own = curve.levelDb.map((level) => (level === null ? null : level - ownDb));
  const middle = curve.nominalHz.indexOf(MIDDLE_HZ);
  const down = standAbove(own, middle, -1, HIDDEN_DB);
  const up = standAbove(own, middle, 1, HIDDEN_DB);
  const alignmentUncertaintyDb = rangeUncertaintyDb(curve, ...ALIGNMENT_HZ);
  return { id, curve, alignmentDb, alignmentUncertaintyDb, own, ends: down && up && [down.last, up.last] };
}

/** Whether one shows in a band what the other hides. */
function judge(loud: Aligned, k: number, quiet: Aligned, other: number): Omit<Range, "bands"> | null {
  const difference = differenceOf(loud, [k], quiet, [other]);
  const ownLoud = loud.own[k];
  const ownQuiet = quiet.own[other];
  if (!difference || difference.differenceDb < 0 || ownLoud == null || ownQuiet == null) return null;
  if (realDifference(difference.differenceDb, [difference.uncertaintyDb], LEAST_DB) !== "real") return null;
  if (ownLoud < HIDDEN_DB) return null;
  const pastEnd = quiet.ends !== null && (other < quiet.ends[0] || other > quiet.ends[1]);
  return { kind: pastEnd && ownQuiet < HIDDEN_DB ? "reach" : "level", loud, quiet };
}

function describe({ kind, loud, quiet, bands }: Range, first: BandCurve): Shown {
  const names = bands.map((k) => first.nominalHz[k]!);
  const placesIn = ({ curve }: Aligned): number[] => names.map((nominalHz) => curve.nominalHz.indexOf(nominalHz));
  // Every band of the range has a difference.
  const difference = differenceOf(loud, placesIn(loud), quiet, placesIn(quiet))!;
  const edges = (k: number): [number, number] => bandEdges({ fraction: 3, exactHz: first.exactHz[k]! });
  return {
    monitor: loud.id,
    other: quiet.id,
    kind,
    fromHz: edges(bands[0]!)[0],
    toHz: edges(bands.at(-1)!)[1],
    ...difference,
  };
}

/** Energy mean over some bands, levels aligned, loud minus quiet; null when a level or an uncertainty is not known. */
function differenceOf(
  loud: Aligned,
  loudBands: readonly number[],
  quiet: Aligned,
  quietBands: readonly number[],
): { differenceDb: number; uncertaintyDb: number } | null {
  const [above, below] = [levelOver(loud, loudBands, uncertaintyAt), levelOver(quiet, quietBands, doubtAt)];
  const differenceDb = minus(above.levelDb, below.levelDb);
  const uncertaintyDb = rootSum(above.uncertaintyDb, below.uncertaintyDb);
  return differenceDb === null || uncertaintyDb === null ? null : { differenceDb, uncertaintyDb };
}

function levelOver(
  { curve, alignmentDb, alignmentUncertaintyDb }: Aligned,
  places: readonly number[],
  uncertaintyOf: (curve: BandCurve, k: number) => number | null,
): { levelDb: number | null; uncertaintyDb: number | null } {
  const levels = places.map((k) => curve.levelDb[k] ?? null);
  const uncertainties = places.map((k) => uncertaintyOf(curve, k));
  return {
    levelDb: minus(energyMeanDb(levels), alignmentDb),
    uncertaintyDb: rootSum(energyMeanUncertaintyDb(levels, uncertainties, "common"), alignmentUncertaintyDb),
  };
}

function uncertaintyAt(curve: BandCurve, k: number): number | null {
  return curve.uncertaintyDb[k] ?? null;
}

/** Under the noise no uncertainty is stated; what is there at most is known all the same. */
function doubtAt(curve: BandCurve, k: number): number | null {
  const overNoiseDb = minus(curve.levelDb[k], curve.noiseDb[k]);
  return uncertaintyAt(curve, k) ?? (overNoiseDb === null ? null : (10 / Math.LN10) * 10 ** (-overNoiseDb / 10));
}
