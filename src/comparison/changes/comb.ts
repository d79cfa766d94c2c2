import type { BandMetrics, Reflection } from "../../model.js";
import { bandEdges } from "../../standards/iec61260.js";

/** Weaker ones colour a band by less than 2 dB in all; later ones average out over a third octave. */
const WEAKEST_DB = -20;
/** A delay is told to so much of itself where the phase of a comb is concerned. */
const DELAY_DOUBT = 0.1;
const STEPS = 4;
const SPEED_OF_SOUND = 343;

/**
 * Standard deviation of a band's level when strong early reflections come a little earlier or later: their comb moves.
 *
 * A direct sound 1 with a reflection `a` after `t` has, over a band B wide around f, the power 1 + a^2 + 2 a sinc(B t) cos(2 pi f t). How
 * far that goes when `t` changes is averaged over the delays near the measured one, since nobody knows a reflection's phase
 * to a fraction of a period at every frequency.
 *
 * @param apartM - of the microphone's two places; a third of its square counts along any one direction
 * @returns dB; several reflections as independent
 */
export function combByPlacement(
  band: Pick<BandMetrics, "fraction" | "exactHz">,
  reflections: readonly Reflection[],
  apartM: number,
): number {
  const [fromHz, toHz] = bandEdges(band);
  const halfS = apartM / Math.sqrt(3) / SPEED_OF_SOUND / 2;
  const squares = reflections
    .filter(({ levelDb }) => levelDb >= WEAKEST_DB)
    .map(({ delayS, levelDb, polarity }) => {
      const a = Math.min(0.95, 10 ** (levelDb / 20)) * polarity;
      const levelAt = (timeS: number): number => {
        const turn = Math.PI * (toHz - fromHz) * timeS;
        const sinc = turn === 0 ? 1 : Math.sin(turn) / turn;
        return 10 * Math.log10(1 + a * a + 2 * a * sinc * Math.cos(2 * Math.PI * band.exactHz * timeS));
      };
      let sum = 0;
      for (let n = -STEPS; n <= STEPS; n++) {
        const timeS = delayS * (1 + (DELAY_DOUBT * n) / STEPS);
        sum += (levelAt(timeS + halfS) - levelAt(timeS - halfS)) ** 2;
      }
      return sum / (2 * STEPS + 1);
    });
  return Math.sqrt(squares.reduce((sum, square) => sum + square, 0));
}
