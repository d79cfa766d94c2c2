import { bandwidthHz, type Pole } from "./pole.js";

/** Another look at the same sound. */
export interface Look {
  readonly poles: readonly Pole[];
  /** What its squared deviation from the first look counts towards a variance. */
  readonly weight: number;
}

/** How far several looks agree on an oscillation: standard uncertainties. */
export interface Agreement {
  readonly frequencyUncertaintyHz: number;
  readonly dampingUncertaintyPerS: number;
}

/**
 * Two looks see the same mode when they differ by less than this, in half bandwidths and in the logarithm of the damping
 * together: a choice of ours.
 */
const SAME = 1;

/**
 * Holds what one look found against others.
 *
 * @returns for each pole how well all looks agree on it; null where one of them does not show it
 */
export function agreementOn(poles: readonly Pole[], looks: readonly Look[]): (Agreement | null)[] {
  const partners = looks.map((look) => pairUp(poles, look.poles));
  return poles.map((pole, p) => {
    let frequency = 0;
    let damping = 0;
    for (const [l, { weight }] of looks.entries()) {
      const partner = partners[l]![p];
      if (!partner) return null;
      frequency += weight * (partner.frequencyHz - pole.frequencyHz) ** 2;
      damping += weight * (partner.dampingPerS - pole.dampingPerS) ** 2;
    }
    return { frequencyUncertaintyHz: Math.sqrt(frequency), dampingUncertaintyPerS: Math.sqrt(damping) };
  });
}

/** Pairs each pole with the likest of another look, none twice, the likest pairs first. */
function pairUp(poles: readonly Pole[], others: readonly Pole[]): (Pole | null)[] {
  const pairs = poles
    .flatMap((pole, p) => others.map((other, o) => ({ p, o, unlike: unlikeness(pole, other) })))
    .filter(({ unlike }) => unlike < SAME)
    .sort((a, b) => a.unlike - b.unlike);
  const partners = poles.map((): Pole | null => null);
  const taken = new Set<number>();
  for (const { p, o } of pairs) {
    if (partners[p] || taken.has(o)) continue;
    partners[p] = others[o]!;
    taken.add(o);
  }
  return partners;
}

function unlikeness(a: Pole, b: Pole): number {
  const halfWidthHz = 0.5 * bandwidthHz(a);
  return Math.hypot((a.frequencyHz - b.frequencyHz) / halfWidthHz, Math.log(b.dampingPerS / a.dampingPerS));
}
