import { forwardReal, transformSize } from "../dsp/fft.js";
import { paddedCut } from "../dsp/padded-cut.js";
import { raisedCosine } from "../dsp/raised-cosine.js";
import type { ImpulseResponse } from "../model.js";
import { noiseAt } from "../dsp/noise-at.js";

const AFTER_S = 0.003;
/** Later, a room that has warmed by a degree would look like one in which the microphone moved. */
const UNTIL_S = 0.03;
const RISE_S = 0.001;
const FALL_S = 0.01;
const OCTAVE = Math.SQRT2;
/** With more noise than this share of the energy the coherence is not known. */
const MOST_NOISE = 0.5;

/**
 * How far the reflections of two responses agree in an octave, from 3 to 30 ms after the direct sound: 1 for the same place.
 *
 * The direct sound says little of a move, since takes are aligned by it. Where reflections come from all around, the coherence
 * of two places a distance d apart is sin(kd)/(kd) when the move was across the direct sound, and sin(2kd)/(2kd) when it was
 * along it. Noise is taken out of the energies.
 *
 * @param a - aligned with `b`
 * @returns -1..1; null where noise hides the reflections, or the octave was not swept
 * @remarks Source: R. K. Cook et al., J. Acoust. Soc. Am. 27 (1955), coherence in a diffuse field (from memory).
 */
export function reflectedCoherence(a: ImpulseResponse, b: ImpulseResponse, octaveHz: number): number | null {
  const { sampleRate } = a;
  const [fromHz, toHz] = [octaveHz / OCTAVE, octaveHz * OCTAVE];
  if (fromHz < a.sweptHz[0] || toHz > a.sweptHz[1]) return null;
  const length = Math.round((UNTIL_S - AFTER_S) * sampleRate);
  const size = 2 * transformSize(length);
  const start = Math.round(a.arrivalSample + AFTER_S * sampleRate);
  const [first, second] = [a, b].map(({ samples }) =>
    forwardReal(faded(paddedCut(samples, start, length), sampleRate), size),
  );
  let together = 0;
  let energyA = 0;
  let energyB = 0;
  let noiseA = 0;
  let noiseB = 0;
  for (let k = Math.ceil((fromHz * size) / sampleRate); k < (toHz * size) / sampleRate; k++) {
    const [ar, ai, br, bi] = [first![2 * k]!, first![2 * k + 1]!, second![2 * k]!, second![2 * k + 1]!];
    together += ar * br + ai * bi;
    energyA += ar * ar + ai * ai;
    energyB += br * br + bi * bi;
    const hz = (k * sampleRate) / size;
    noiseA += a.noise ? noiseAt(a.noise, hz) * (UNTIL_S - AFTER_S) : 0;
    noiseB += b.noise ? noiseAt(b.noise, hz) * (UNTIL_S - AFTER_S) : 0;
  }
  if (!(energyA > 0 && energyB > 0) || noiseA > MOST_NOISE * energyA || noiseB > MOST_NOISE * energyB) return null;
  return together / Math.sqrt((energyA - noiseA) * (energyB - noiseB));
}

function faded(cut: Float64Array, sampleRate: number): Float64Array {
  for (let n = 0; n < cut.length; n++) {
    cut[n]! *= raisedCosine(Math.min(n / (RISE_S * sampleRate), (cut.length - n) / (FALL_S * sampleRate)));
  }
  return cut;
}

/**
 * The distance that a microphone was moved by, as far as a diffuse field tells it: from along the direct sound to across it.
 *
 * @param coherence - less than 1; what lies below the first dip is taken for that
 * @returns least and most, metres
 * @example distancesOfCoherence(0, 1000, 340) // [0.085, 0.17]: a quarter and half a wavelength
 */
export function distancesOfCoherence(
  coherence: number,
  frequencyHz: number,
  speedOfSound: number,
): readonly [number, number] {
  // sin(x)/x falls from 1 to its lowest at x = 4.49.
  let low = 0;
  let high = 4.4934;
  for (let round = 0; round < 40; round++) {
    const x = (low + high) / 2;
    if (Math.sin(x) / x > coherence) low = x;
    else high = x;
  }
  const mostM = (low * speedOfSound) / (2 * Math.PI * frequencyHz);
  return [mostM / 2, mostM];
}
