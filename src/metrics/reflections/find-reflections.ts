import { parabolicPeak } from "../../dsp/analytic-band.js";
import type { Reflection } from "../../model.js";
import type { ArrivalEnvelope } from "./energy-time.js";

const FIRST_S = 0.0003;
const LAST_S = 0.05;
const CLOSE_S = 0.001;
const PROMINENCE = 10 ** (6 / 20);
const NEIGHBOURHOOD_S = 0.002;
/** Weaker ones are the room's decay, not a surface that one could point at: a choice of ours. */
const WEAKEST = 10 ** (-30 / 20);

/**
 * Lists early reflections: peaks of the 1-8 kHz envelope that stand 6 dB above the median of the 2 ms around them.
 *
 * Between 0.3 and 1 ms a peak may be the desk or the loudspeaker's own ringing; it is listed as `close`, since the desk is
 * the commonest early reflection in a control room.
 *
 * @param speedOfSound - m/s
 * @returns by delay; level is the peak re the direct sound's peak, its uncertainty what the sound around it can add
 */
export function findReflections(arrival: ArrivalEnvelope, speedOfSound: number): Reflection[] {
  const { envelope, stepS, directIndex, directPeak } = arrival;
  const reach = Math.round(NEIGHBOURHOOD_S / stepS);
  const last = Math.min(envelope.length - 2, Math.floor(directIndex + LAST_S / stepS));
  const reflections: Reflection[] = [];
  for (let n = Math.ceil(directIndex + FIRST_S / stepS); n <= last; n++) {
    const value = envelope[n]!;
    if (value < WEAKEST * directPeak || value <= envelope[n - 1]! || value < envelope[n + 1]!) continue;
    const around = medianOf(envelope, n - reach, n + reach);
    if (value < PROMINENCE * around) continue;
    const peak = parabolicPeak(envelope, n);
    const delayS = (peak.at - directIndex) * stepS;
    const polarity = samePolarity(arrival, n) ? 1 : -1;
    reflections.push({
      delayS,
      pathDifferenceM: delayS * speedOfSound,
      levelDb: 20 * Math.log10(peak.value / directPeak),
      // Sound of the median's size in any phase: half its largest effect, as a standard uncertainty.
      levelUncertaintyDb: (20 / Math.LN10) * (around / peak.value) * Math.SQRT1_2,
      polarity,
      firstNotchHz: polarity === 1 ? 1 / (2 * delayS) : 1 / delayS,
      close: delayS < CLOSE_S,
    });
  }
  return reflections;
}

function medianOf(values: Float64Array, from: number, to: number): number {
  // Every fourth step: the envelope cannot change faster.
  const picked: number[] = [];
  for (let n = Math.max(0, from); n <= Math.min(values.length - 1, to); n += 4) picked.push(values[n]!);
  picked.sort((a, b) => a - b);
  return picked[picked.length >> 1] ?? 0;
}

/** The phase under the peak against the phase under the direct sound's. */
function samePolarity({ analytic, directIndex }: ArrivalEnvelope, index: number): boolean {
  const direct = Math.round(directIndex);
  const product =
    analytic.values[2 * index]! * analytic.values[2 * direct]! +
    analytic.values[2 * index + 1]! * analytic.values[2 * direct + 1]!;
  return product >= 0;
}
