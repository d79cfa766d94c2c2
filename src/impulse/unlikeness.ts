import { delayBetween } from "../dsp/delay-between.js";
import { forwardReal, transformSize } from "../dsp/fft.js";
import { paddedCut } from "../dsp/padded-cut.js";
import { sharedPart } from "../dsp/shared-part.js";
import type { ImpulseResponse } from "../model.js";

/** Here a wave is so short that two places which mirror each other to a millimetre already differ. */
const BAND_HZ = [2000, 8000] as const;
const BEFORE_S = 0.002;
const AFTER_S = 0.02;

/**
 * How much of one response another cannot explain by a gain and a delay: direct sound and 20 ms of reflections, 2 to 8 kHz.
 *
 * @returns dB re the energy of either; 0 for strangers, `-Infinity` for copies; null if sample rates or bands do not allow it
 * @remarks Source: own derivation; one minus the squared correlation, at the delay where it is highest.
 */
export function unlikenessDb(a: ImpulseResponse, b: ImpulseResponse): number | null {
  const { sampleRate } = a;
  const topHz = Math.min(BAND_HZ[1], a.sweptHz[1], b.sweptHz[1]);
  if (b.sampleRate !== sampleRate || topHz < 2 * BAND_HZ[0]) return null;
  const length = Math.round((BEFORE_S + AFTER_S) * sampleRate);
  const [first, second] = [a, b].map(({ samples, arrivalSample }) =>
    paddedCut(samples, Math.round(arrivalSample - BEFORE_S * sampleRate), length),
  );
  const delay = delayBetween(first!, second!, sampleRate, [BAND_HZ[0], topHz]);
  const size = 2 * transformSize(length);
  const { together, energyX, energyY } = sharedPart(
    forwardReal(first!, size),
    forwardReal(second!, size),
    delay.samples,
    Math.ceil((BAND_HZ[0] * size) / sampleRate),
    Math.ceil((topHz * size) / sampleRate),
  );
  if (!(energyX > 0 && energyY > 0)) return null;
  return 10 * Math.log10(Math.max(0, 1 - together ** 2 / (energyX * energyY)));
}
