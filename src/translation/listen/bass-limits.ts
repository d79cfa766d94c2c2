/**
 * The criterion for a bass line on a small loudspeaker, all its figures in one place.
 *
 * The harmonic limits are from the literature: the pitch of a tone without its fundamental is clear while the lowest partial
 * present is at most the seventh, and about five times as vague from the tenth on (Mehta and Oxenham 2020, abstract; earlier for
 * notes below 100 Hz). The step over the masker is that of a tone in noise (from memory). Everything else is a choice of ours.
 */
export const BASS_LINE = {
  frameS: 0.186,
  fundamentalHz: [35, 120],
  /** The band whose level tells whether a frame has bass, how far under its 95th percentile it may lie. */
  levelHz: [35, 160],
  percentile: 0.95,
  withinDb: 12,
  partials: [2, 10],
  highestHz: 1200,
  overThresholdDb: 5,
  overMaskerDb: -4,
  overMedianDb: 6,
  /** Partials up to here carry pitch; up to the last of them colour. */
  pitchUpTo: 7,
  atLeast: 2,
  heardFrom: 0.6,
  weakFrom: 0.3,
} as const;

/** Equivalent rectangular bandwidth of hearing. Source: Glasberg and Moore 1990 (from memory). */
export function hearingBandwidthHz(frequencyHz: number): number {
  return 24.7 * (0.00437 * frequencyHz + 1);
}
