import type { Excitation } from "../impulse/excitation.js";
import type { SweepBreak } from "../impulse/sweep-break.js";
import * as findings from "./findings/signal.js";
import type { Noticed } from "./noticed.js";

/** Two sweeps break alike when it is at one note, within a third octave or so, and by the same time, within a fifth of it. */
const SAME_NOTE = 2 ** (1 / 2);
const SAME_STEP = 0.2;
/** A place that was found sample by sample is taken for that of a break so near to it, or a third octave of the sweep. */
const PLACE_S = 0.3;
const THIRD_OCTAVE = Math.LN2 / 3;

type Heard = Pick<Noticed, "broken" | "zeroS" | "jumps">;

/**
 * Refuses a recording in one of whose sweeps everything above a note arrives earlier or later than everything below.
 *
 * Where all sweeps break alike it is the system that delays its bass, and where nothing was lost, a loudspeaker that does, or one
 * whose treble comes by way of a wall.
 *
 * @param isInPlace - whether the sounds around a sweep show that, with a step of so many seconds, nothing was lost or came twice
 * @throws {InputError} then
 */
export function refuseBroken(
  file: string,
  sampleRate: number,
  noticed: readonly Heard[],
  { growthS, sweptHz }: Excitation,
  isInPlace: (sweep: number, stepS: number) => boolean = () => false,
): void {
  if (growthS === null) return;
  for (const [n, { broken, zeroS, jumps }] of noticed.entries()) {
    if (!broken || isInPlace(n, broken.belowLaterS)) continue;
    if (noticed.filter((other) => other.broken && areAlike(broken, other.broken)).length > 1) continue;
    const aboutS = zeroS + broken.belowAtS + growthS * Math.log(broken.frequencyHz / sweptHz[0]);
    const exact = jumps
      .filter(({ persists }) => persists)
      .map(({ sample }) => sample / sampleRate)
      .find((atS) => Math.abs(atS - aboutS) < Math.max(PLACE_S, growthS * THIRD_OCTAVE));
    throw findings.broken(file, exact ?? aboutS, broken.belowLaterS, exact !== undefined);
  }
}

function areAlike(a: SweepBreak, b: SweepBreak): boolean {
  const isSameNote = Math.abs(Math.log(a.frequencyHz / b.frequencyHz)) < Math.log(SAME_NOTE);
  return isSameNote && Math.abs(a.belowLaterS - b.belowLaterS) < SAME_STEP * Math.abs(a.belowLaterS);
}
