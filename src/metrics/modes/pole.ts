/** One damped oscillation: exp(-damping t) times a sine. */
export interface Pole {
  readonly frequencyHz: number;
  /** Of the amplitude, 1/s. */
  readonly dampingPerS: number;
}

/** Time constants in which an amplitude falls by 60 dB. */
const SIXTY_DB = Math.log(1000);

/** Decay time, 60 dB, s. */
export function decayTimeS({ dampingPerS }: Pole): number {
  return SIXTY_DB / dampingPerS;
}

/** Width of the resonance between its points of half power, Hz: 2.2 over the decay time. */
export function bandwidthHz({ dampingPerS }: Pole): number {
  return dampingPerS / Math.PI;
}

/** Frequency over bandwidth. */
export function qualityOf(pole: Pole): number {
  return pole.frequencyHz / bandwidthHz(pole);
}
