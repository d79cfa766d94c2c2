import { normalTail } from "../../dsp/normal-tail.js";

/** What a difference is held against. */
export interface Judgeable {
  /** Of the difference, standard, in the unit of the other. */
  readonly uncertainty: number;
  readonly justNoticeable: number;
}

export interface ChanceLimits {
  /** Of calling anything real if nothing had changed, by the sum over all that is judged. */
  readonly expected: number;
  /** Coverage factor where the just noticeable difference alone would let chance through; 0 where it does not. */
  readonly sharpCoverage: number;
  readonly bluntCoverage: number;
  /** A difference must be larger to be called real. */
  needed(one: Judgeable): number;
}

/** Chance that a whole comparison finds anything real though nothing has changed: at most. A choice of ours. */
export const MOST_CHANCE = 0.05;
/** Share of it that sharp measurements may take before they need more than the just noticeable difference. */
const SHARP_PART = 0.8;
/**
 * Standard uncertainty, in just noticeable differences, up to which a measurement is sharp: a true change of `CLEAR` just
 * noticeable differences then reads as more than one of them 95 times in a hundred, 1.5 - 1.645 * 0.3 = 1.01.
 */
const SHARP = 0.3;
/** So many just noticeable differences are a clear change. */
const CLEAR = 1.5;
const COVERAGE = 2;
const HIGHEST_COVERAGE = 12;

/** Whether a measurement can tell a clear change from one that is hardly noticed. */
export function isSharp({ uncertainty, justNoticeable }: Judgeable): boolean {
  return uncertainty <= SHARP * justNoticeable;
}

/**
 * Finds how large each of many differences must be, so that hardly ever any of them is called real by chance.
 *
 * A single difference of two equal things lies within twice its standard uncertainty 95 times in a hundred; of a thousand
 * of them, fifty do not. So the chances of all that is judged are summed, and limits are set such that the sum stays under
 * `MOST_CHANCE`. The sum is never less than the chance of at least one, whether errors hang together or not.
 *
 * Sharp measurements need the just noticeable difference alone, which is more than three uncertainties; only where so many
 * of them are judged that their chances take more than four fifths of what is allowed is a common coverage factor laid on top.
 * The others need more than a clear change by their expanded uncertainty, so that what they call real is one, and a coverage factor that
 * keeps the rest of the sum.
 *
 * @param judged - everything that will be judged; uncertainties above 0
 * @remarks Source: Boole's inequality (the method of Bonferroni); the shares and limits are choices of ours.
 */
export function chanceLimits(judged: readonly Judgeable[]): ChanceLimits {
  const sharp = judged.filter(isSharp);
  const blunt = judged.filter((one) => !isSharp(one));
  const [sharpCoverage, bySharp] = leastCoverage(sharp, sharpNeeded, SHARP_PART * MOST_CHANCE);
  const [bluntCoverage, byBlunt] = leastCoverage(blunt, bluntNeeded, MOST_CHANCE - bySharp);
  return {
    expected: bySharp + byBlunt,
    sharpCoverage,
    bluntCoverage,
    needed: (one) => (isSharp(one) ? sharpNeeded(one, sharpCoverage) : bluntNeeded(one, bluntCoverage)),
  };
}

type Needed = (one: Judgeable, coverage: number) => number;

const sharpNeeded: Needed = ({ uncertainty, justNoticeable }, coverage) =>
  Math.max(justNoticeable, coverage * uncertainty);
const bluntNeeded: Needed = ({ uncertainty, justNoticeable }, coverage) =>
  Math.max(CLEAR * justNoticeable + COVERAGE * uncertainty, coverage * uncertainty);

/** The least coverage factor that keeps the sum of chances, and that sum. */
function leastCoverage(judged: readonly Judgeable[], needed: Needed, most: number): [number, number] {
  const sumAt = (coverage: number): number =>
    judged.reduce((sum, one) => sum + normalTail(needed(one, coverage) / one.uncertainty), 0);
  const alone = sumAt(0);
  if (alone <= most) return [0, alone];
  let [low, high] = [0, HIGHEST_COVERAGE];
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if (sumAt(middle) > most) low = middle;
    else high = middle;
  }
  return [high, sumAt(high)];
}
