import type { Signal } from "../model.js";

/** Equal samples in a row where the sound goes on before and after. */
export interface HeldSamples {
  readonly sample: number;
  readonly count: number;
}

/** A crest of 20 Hz at 192 kHz and 16 bits stays on one value for 24 samples, but so do its neighbours. */
const SHORT = { run: 16, movingShare: 0.9 } as const;
/** Half of the neighbours equal by chance: 64 in a row have a chance of 2^-64. */
const LONG = { run: 64, movingShare: 0.5 } as const;

/**
 * Finds where a recorder held one value, or wrote zeros, because samples did not arrive in time.
 *
 * @param from - first sample looked at
 * @param to - end, exclusive
 * @returns runs of at least 16 equal samples between which, over as many samples before and after, nearly no two neighbours
 *   are equal; of at least 64 where half of them are not
 */
export function heldSamples({ samples }: Signal, from: number, to: number): HeldSamples[] {
  const held: HeldSamples[] = [];
  const end = Math.min(samples.length, Math.floor(to));
  for (let n = Math.max(0, Math.ceil(from)); n < end;) {
    const start = n++;
    while (n < end && samples[n] === samples[start]) n++;
    const count = n - start;
    if (count < SHORT.run) continue;
    const moving = Math.min(movingShare(samples, start - count, start), movingShare(samples, n, n + count));
    const least = count >= LONG.run ? LONG.movingShare : SHORT.movingShare;
    if (moving >= least) held.push({ sample: start, count });
  }
  return held;
}

/** Share of the samples that differ from the one before; what lies outside the recording does not move. */
function movingShare(samples: Signal["samples"], from: number, to: number): number {
  let moving = 0;
  for (let n = Math.max(1, from); n < Math.min(samples.length, to); n++) if (samples[n] !== samples[n - 1]) moving++;
  return moving / (to - from);
}
