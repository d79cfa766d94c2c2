import type { FoundEvent } from "./event.js";
import type { QuietCells } from "./quiet-cells.js";
import { LEAST_RE_SWEEP_DB } from "./strange-cells.js";

/** What the quiet cells of a recording tell: its noise, and what happened in it. */
export interface QuietFacts {
  readonly bandHz: readonly number[];
  /** How far the noise of all bands moved together under a sweep against the silence before, dB; null if they did not. */
  readonly gainDb: number | null;
  /** The band whose noise rose most over that of the silence before, among those loud enough to matter; null for none. */
  readonly rise: Rise | null;
  /** Noise under and behind the sweeps over that of the silence before, dB, by band; 0 where it is not known. */
  readonly shiftDb: Float64Array;
  readonly knocks: readonly Knock[];
}

/** An octave that was louder than in the silence before. */
interface Rise {
  readonly bandHz: number;
  readonly byDb: number;
  readonly atS: number;
  /** By how much at the most in the silence after a sweep; what is played cannot be the cause there. */
  readonly inSilenceDb: number;
}

/** A short sound under a sweep or in its decay. */
export interface Knock {
  readonly atS: number;
  readonly bandHz: number;
  /** Over the band's usual level there and then, dB. */
  readonly excessDb: number;
  /** Over the recorded sweep, dB: mean square to mean square. */
  readonly reSweepDb: number;
}

/** Fewer cells make no median. */
const LEAST_CELLS = 5;
/** From this band up a cell holds enough independent values for its level to scatter by little. */
const STEADY_HZ = 125;
const FINE_HZ = 1000;
/** How far bands may be apart, in the mean over blocks, that one gain has moved: chance alone stays under half of this. */
const ALIKE_DB = 1;
const ALIKE_LOW_DB = 2.5;
const ALIKE_BANDS = 3;
/** A gain is read as the median over so many blocks, and its largest excursion that a tenth of them share. */
const SMOOTHED_BLOCKS = 9;
const EXTREME_SHARE = 0.1;
/** Noise this far under the sweep touches no figure: a decay needs 45 dB of range, and a sweep gives 15 dB more than its level. */
const MATTERS_RE_SWEEP_DB = -50;

/** A short sound, over the median around it. Rumble scatters more, with four values in a cell. */
const KNOCK_DB = 15;
const KNOCK_RUMBLE_DB = 20;
const AROUND_CELLS = 15;

/**
 * Reads off the quiet cells whether the noise stayed what it was and whether something sounded that was not played.
 *
 * @param decayS - after so long a sweep's response has sunk into the noise
 * @param sweepDb - mean square of the recorded sweep, dB re full scale
 */
export function quietFacts(
  cells: QuietCells,
  found: readonly FoundEvent[],
  sampleRate: number,
  decayS: number,
  sweepDb: number,
): QuietFacts {
  const spans = found
    .filter(({ event }) => event.kind === "sweep")
    .map(({ event, startSample }) => [startSample / sampleRate, (startSample + event.samples) / sampleRate] as const)
    .sort((a, b) => a[0] - b[0]);
  const firstS = Math.min(...found.map(({ startSample }) => startSample / sampleRate));
  const levels = (band: number, fromS: number, toS: number): Float64Array =>
    Float64Array.from(
      cells.levelDb.flatMap((row, block) => {
        const atS = block * cells.blockS;
        const isIn = atS >= fromS && atS + cells.blockS <= toS && !Number.isNaN(row[band]!);
        return isIn ? [row[band]!] : [];
      }),
    );
  const before = cells.bandHz.map((_, band) => medianOf(levels(band, 0, firstS)));
  // In its second half a sweep has bands behind it only: what is heard there is none of its harmonics.
  const stretches = spans.flatMap(([fromS, toS], n) => [
    { fromS: 0.5 * (fromS + toS), toS },
    { fromS: toS, toS: spans[n + 1]?.[0] ?? cells.levelDb.length * cells.blockS },
  ]);
  const medians = stretches.map(({ fromS, toS }) => cells.bandHz.map((_, band) => medianOf(levels(band, fromS, toS))));

  const shifts = stretches.map((_, n) => cells.bandHz.map((_, band) => difference(medians[n]![band]!, before[band]!)));
  const rises: { band: number; n: number; byDb: number }[] = [];
  const shiftDb = new Float64Array(cells.bandHz.length);
  cells.bandHz.forEach((bandHz, band) => {
    shifts.forEach((shift, n) => {
      const byDb = shift[band] ?? null;
      if (byDb === null) return;
      shiftDb[band] = Math.max(shiftDb[band]!, byDb);
      const matters = medians[n]![band]! > sweepDb + MATTERS_RE_SWEEP_DB;
      if (bandHz >= STEADY_HZ && matters && byDb > 0) rises.push({ band, n, byDb });
    });
  });
  const [most] = rises.sort((a, b) => b.byDb - a.byDb);
  const rise: Rise | null = most
    ? {
        bandHz: cells.bandHz[most.band]!,
        byDb: most.byDb,
        atS: stretches[most.n]!.fromS,
        inSilenceDb: Math.max(0, ...shifts.filter((_, n) => n % 2 === 1).map((shift) => shift[most.band] ?? 0)),
      }
    : null;
  const last = spans.at(-1)?.[1] ?? 0;
  const gains = spans.flatMap(([fromS, toS]) => commonGain(cells, before, fromS, toS) ?? []);
  return {
    bandHz: cells.bandHz,
    gainDb: gains.length === 0 ? null : largest(gains),
    rise,
    shiftDb,
    knocks: knocksIn(cells, spans[0]?.[0] ?? 0, last + decayS, sweepDb),
  };
}

/** One block's common shift, and how far each band is from it; NaN where a band is not quiet. */
interface Shift {
  readonly gainDb: number;
  readonly offDb: readonly number[];
}

/**
 * How far one gain has moved all noise under one sweep; null where bands do not move together.
 *
 * Each band counts by its width, which is how many independent values a cell of it holds.
 */
function commonGain(cells: QuietCells, before: readonly (number | null)[], fromS: number, toS: number): number | null {
  const shifts: Shift[] = [];
  for (let block = Math.ceil(fromS / cells.blockS); (block + 1) * cells.blockS <= toS; block++) {
    const byDb = cells.bandHz.map((hz, band) =>
      hz < STEADY_HZ ? Number.NaN : (cells.levelDb[block]?.[band] ?? Number.NaN) - (before[band] ?? Number.NaN),
    );
    const quiet = cells.bandHz.flatMap((hz, band) => (Number.isNaN(byDb[band]!) ? [] : [{ hz, byDb: byDb[band]! }]));
    if (quiet.length < ALIKE_BANDS) continue;
    const gainDb = quiet.reduce((sum, one) => sum + one.hz * one.byDb, 0) / quiet.reduce((sum, { hz }) => sum + hz, 0);
    shifts.push({ gainDb, offDb: byDb.map((value) => value - gainDb) });
  }
  const isAlike = cells.bandHz.every((hz, band) => {
    const off = shifts.flatMap(({ offDb }) => (Number.isNaN(offDb[band]!) ? [] : [offDb[band]!]));
    const mean = off.reduce((sum, value) => sum + value, 0) / off.length;
    return off.length < LEAST_CELLS || Math.abs(mean) <= (hz >= FINE_HZ ? ALIKE_DB : ALIKE_LOW_DB);
  });
  if (!isAlike || shifts.length < SMOOTHED_BLOCKS) return null;
  const smooth = shifts
    .slice(SMOOTHED_BLOCKS - 1)
    .map((_, n) => medianOf(Float64Array.from(shifts.slice(n, n + SMOOTHED_BLOCKS), ({ gainDb }) => gainDb))!)
    .sort((a, b) => a - b);
  const skipped = Math.floor(EXTREME_SHARE * smooth.length);
  return largest([smooth[skipped]!, smooth[smooth.length - 1 - skipped]!]);
}

function largest(values: readonly number[]): number {
  return values.reduce((a, b) => (Math.abs(b) > Math.abs(a) ? b : a));
}

/** The loudest short sounds, those that are next to each other taken together. */
function knocksIn(cells: QuietCells, fromS: number, toS: number, sweepDb: number): Knock[] {
  const knocks: Knock[] = [];
  const first = Math.max(0, Math.floor(fromS / cells.blockS));
  const end = Math.min(cells.levelDb.length, Math.ceil(toS / cells.blockS));
  for (let block = first; block < end; block++) {
    const loud = cells.bandHz.flatMap((bandHz, band): Knock[] => {
      const level = cells.levelDb[block]![band]!;
      const reSweepDb = level - sweepDb;
      if (!(reSweepDb > LEAST_RE_SWEEP_DB)) return [];
      const usual = usualAround(cells, block, band);
      if (usual === null) return [];
      const excessDb = level - usual;
      if (excessDb < (bandHz < STEADY_HZ ? KNOCK_RUMBLE_DB : KNOCK_DB)) return [];
      return [{ atS: block * cells.blockS, bandHz, excessDb, reSweepDb }];
    });
    if (loud.length === 0) continue;
    const worst = loud.reduce((a, b) => (b.excessDb > a.excessDb ? b : a));
    const { atS, excessDb } = worst;
    const open = knocks.at(-1);
    if (open && atS - open.atS < 3.5 * cells.blockS) {
      if (excessDb > open.excessDb) knocks[knocks.length - 1] = worst;
    } else knocks.push(worst);
  }
  return knocks;
}

/** Median of the quiet cells before or after, whichever is louder: noise that begins here and stays is no knock. */
function usualAround({ levelDb }: QuietCells, block: number, band: number): number | null {
  const quiet = (from: number, step: 1 | -1): number | null => {
    const found: number[] = [];
    for (let n = from; n >= 0 && n < levelDb.length && found.length < AROUND_CELLS; n += step) {
      if (!Number.isNaN(levelDb[n]![band]!)) found.push(levelDb[n]![band]!);
    }
    return medianOf(Float64Array.from(found));
  };
  const before = quiet(block - 1, -1);
  const after = quiet(block + 1, 1);
  return before === null || after === null ? (before ?? after) : Math.max(before, after);
}

function difference(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : a - b;
}

function medianOf(values: Float64Array): number | null {
  if (values.length < LEAST_CELLS) return null;
  const sorted = values.slice().sort();
  return sorted[sorted.length >> 1]!;
}
