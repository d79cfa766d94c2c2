/** When a train of echoes at equal intervals is a flutter, as results tell it; choices of ours. */
export const FLUTTER = {
  /** What stands out less of what lies between its echoes is no train of echoes to the ear. */
  leastAboveDb: 6,
  /** A train that loses more on a round trip goes between walls of which one at least takes more than it sends back: 3 dB each. */
  mostLostDb: 6,
  /** Two trains go between the same walls when the distances they tell differ by less. */
  sameWallsM: 0.15,
  /** Standard deviation of one echo's level, as of exponentially scattered energies: (10 / ln 10) (pi / sqrt 6), exact for them. */
  scatterDb: ((10 / Math.LN10) * Math.PI) / Math.sqrt(6),
} as const;
