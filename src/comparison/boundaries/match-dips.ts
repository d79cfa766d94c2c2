import type { MeasuredDip } from "./measured-dips.js";

/** A dip that geometry expects of one surface. */
export interface ExpectedDip {
  readonly surface: string;
  readonly frequencyHz: number;
  /** Standard uncertainty as a share of the frequency: by what is not known of the places. */
  readonly share: number;
  readonly mostDb: number;
}

export interface MatchedDip {
  readonly dip: MeasuredDip;
  /** Indices of the expected dips that fit, the nearest first. */
  readonly fitting: readonly number[];
  /** Chance that a dip of this depth anywhere in the range would fit one, or one that nobody can predict: what a fit is worth. */
  readonly byChance: number;
}

/** What the rest of the room shifts a dip by, standard: a twelfth of an octave, twice that at most. A choice of ours. */
const SHIFTED = 2 ** (1 / 24) - 1;
const FITS = 2;
/** Other reflections may deepen a dip beyond what one can do alone by so much: a choice of ours. */
const DEEPER_DB = 4;

/**
 * Holds measured dips against those expected.
 *
 * A dip fits when it lies within twice the uncertainty and is no deeper than that reflection could make it. In a small room so many dips
 * are expected that one is often near by accident: the share of the range, on a logarithmic axis, in which a dip would fit is told
 * with it. Surfaces whose place is not known make dips too, and a measured one may as well be theirs: they count in full, as if none lay
 * where another does, so that who states less is never told something surer.
 *
 * @param untold - dips in the range that surfaces must be expected to make of which the places are not known
 */
export function matchDips(
  dips: readonly MeasuredDip[],
  expected: readonly ExpectedDip[],
  rangeHz: readonly [number, number],
  untold = 0,
): MatchedDip[] {
  // Of places as little known as the least known of the others.
  const widest = Math.max(0, ...expected.map(({ share }) => share));
  const elsewhere = (untold * 2 * reach({ share: widest })) / Math.log(rangeHz[1] / rangeHz[0]);
  return dips.map((dip) => {
    const able = expected.flatMap((one, index) => (dip.depthDb <= one.mostDb + DEEPER_DB ? [index] : []));
    const off = (index: number): number => Math.abs(Math.log(dip.frequencyHz / expected[index]!.frequencyHz));
    const fitting = able.filter((index) => off(index) <= reach(expected[index]!)).sort((a, b) => off(a) - off(b));
    return {
      dip,
      fitting,
      byChance: Math.min(
        1,
        elsewhere +
          covered(
            able.map((index) => expected[index]!),
            rangeHz,
          ),
      ),
    };
  });
}

function reach({ share }: Pick<ExpectedDip, "share">): number {
  return FITS * Math.hypot(share, SHIFTED);
}

/** Share of the range, on a logarithmic axis, that lies within reach of something expected. */
function covered(expected: readonly ExpectedDip[], [fromHz, toHz]: readonly [number, number]): number {
  const spans = expected
    .map((one) => [Math.log(one.frequencyHz) - reach(one), Math.log(one.frequencyHz) + reach(one)] as const)
    .sort((a, b) => a[0] - b[0]);
  let end = Math.log(fromHz);
  let sum = 0;
  for (const [from, to] of spans) {
    const [start, stop] = [Math.max(from, end), Math.min(to, Math.log(toHz))];
    if (stop > start) sum += stop - start;
    end = Math.max(end, stop);
  }
  return sum / Math.log(toHz / fromHz);
}
