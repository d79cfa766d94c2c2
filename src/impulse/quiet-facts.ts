import type { FoundEvent } from "./find.js";
import type { QuietCells } from "./quiet-cells.js";

/** What the quiet cells of a recording tell: its noise, and what happened in it. */
export interface QuietFacts {
  readonly bandHz: readonly number[];
  /** By how much all bands alike are louder or softer under the sweeps than in the silence before, dB; null if they are not alike. */
  readonly gainDb: number | null;
  /** The band whose noise rose most over that of the silence before, among those loud enough to matter; null for none. */
  readonly rise: { readonly bandHz: number; readonly byDb: number; readonly atS: number } | null;
  /** Noise under and behind the sweeps over that of the silence before, dB, by band; 0 where it is not known. */
  readonly shiftDb: Float64Array;
  readonly knocks: readonly Knock[];
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
/** How far bands may be apart that one gain has moved: chance, and what its own hiss adds. Measured: 0.4 dB from 1 kHz up. */
const ALIKE_DB = 1.2;
const ALIKE_LOW_DB = 2.5;
const ALIKE_SHARE = 0.4;
/** Noise this far under the sweep touches no figure: a decay needs 45 dB of range, and a sweep gives 15 dB more than its level. */
const MATTERS_RE_SWEEP_DB = -50;

/** A short sound: over the median around it, and re the sweep. Rumble scatters more, with four values in a cell. */
const KNOCK_DB = 15;
const KNOCK_RUMBLE_DB = 20;
const KNOCK_RE_SWEEP_DB = -58;
const AROUND_S = 1.5;

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
  const stretches = spans.flatMap(([fromS, toS], n) => [
    { fromS, toS, isSweep: true },
    { fromS: toS, toS: spans[n + 1]?.[0] ?? cells.levelDb.length * cells.blockS, isSweep: false },
  ]);
  const medians = stretches.map(({ fromS, toS }) => cells.bandHz.map((_, band) => medianOf(levels(band, fromS, toS))));

  const shifts = stretches.map((_, n) => cells.bandHz.map((_, band) => difference(medians[n]![band]!, before[band]!)));
  let rise: QuietFacts["rise"] = null;
  const shiftDb = new Float64Array(cells.bandHz.length);
  cells.bandHz.forEach((bandHz, band) => {
    shifts.forEach((shift, n) => {
      const byDb = shift[band]!;
      if (byDb === null) return;
      shiftDb[band] = Math.max(shiftDb[band]!, byDb);
      const matters = medians[n]![band]! > sweepDb + MATTERS_RE_SWEEP_DB;
      if (bandHz >= STEADY_HZ && matters && byDb > (rise?.byDb ?? 0)) {
        rise = { bandHz, byDb, atS: stretches[n]!.fromS };
      }
    });
  });
  const last = spans.at(-1)?.[1] ?? 0;
  return {
    bandHz: cells.bandHz,
    gainDb: commonGain(
      shifts.filter((_, n) => stretches[n]!.isSweep),
      cells.bandHz,
    ),
    rise,
    shiftDb,
    knocks: knocksIn(cells, spans[0]?.[0] ?? 0, last + decayS, sweepDb),
  };
}

/** The shift that all bands share under every sweep; null where they do not. */
function commonGain(shifts: readonly (readonly (number | null)[])[], bandHz: readonly number[]): number | null {
  const gains = shifts.map((shift) => {
    const known = shift.flatMap((byDb, band) =>
      byDb === null || bandHz[band]! < STEADY_HZ ? [] : [{ byDb, bandHz: bandHz[band]! }],
    );
    const fine = known.filter((one) => one.bandHz >= FINE_HZ).map(({ byDb }) => byDb);
    const gain = medianOf(Float64Array.from(fine), 3);
    if (gain === null) return null;
    const isAlike = known.every(({ byDb, bandHz: hz }) => {
      const most = Math.max(hz >= FINE_HZ ? ALIKE_DB : ALIKE_LOW_DB, ALIKE_SHARE * Math.abs(gain));
      return Math.abs(byDb - gain) <= most;
    });
    return isAlike ? gain : null;
  });
  const smallest = gains.reduce((a, b) =>
    a === null || b === null || a * b <= 0 ? null : Math.abs(b) < Math.abs(a) ? b : a,
  );
  return smallest;
}

/** The loudest short sounds, those that are next to each other taken together. */
function knocksIn(cells: QuietCells, fromS: number, toS: number, sweepDb: number): Knock[] {
  const around = Math.round(AROUND_S / cells.blockS);
  const knocks: Knock[] = [];
  const first = Math.max(0, Math.floor(fromS / cells.blockS));
  const end = Math.min(cells.levelDb.length, Math.ceil(toS / cells.blockS));
  for (let block = first; block < end; block++) {
    let worst: Knock | null = null;
    cells.bandHz.forEach((bandHz, band) => {
      const level = cells.levelDb[block]![band]!;
      const reSweepDb = level - sweepDb;
      if (!(reSweepDb > KNOCK_RE_SWEEP_DB)) return;
      const near = cells.levelDb.slice(Math.max(0, block - around), block + around + 1);
      const usual = medianOf(Float64Array.from(near.flatMap((row) => (Number.isNaN(row[band]!) ? [] : [row[band]!]))));
      if (usual === null) return;
      const excessDb = level - usual;
      if (excessDb < (bandHz < STEADY_HZ ? KNOCK_RUMBLE_DB : KNOCK_DB)) return;
      if (worst === null || excessDb > worst.excessDb)
        worst = { atS: block * cells.blockS, bandHz, excessDb, reSweepDb };
    });
    if (worst === null) continue;
    const { atS, excessDb } = worst as Knock;
    const open = knocks.at(-1);
    if (open && atS - open.atS < 3.5 * cells.blockS) {
      if (excessDb > open.excessDb) knocks[knocks.length - 1] = worst;
    } else knocks.push(worst);
  }
  return knocks;
}

function difference(a: number | null, b: number | null): number | null {
  return a === null || b === null ? null : a - b;
}

function medianOf(values: Float64Array, least = LEAST_CELLS): number | null {
  if (values.length < least) return null;
  const sorted = values.slice().sort();
  return sorted[sorted.length >> 1]!;
}
