import { analyticBand, envelopeOf, parabolicPeak } from "../../dsp/analytic-band.js";
import { transformSize } from "../../dsp/fft.js";
import type { Reflection } from "../../model.js";
import { type ArrivalEnvelope, OVERSAMPLING } from "./energy-time.js";

const FIRST_S = 0.0003;
const LAST_S = 0.05;
const CLOSE_S = 0.001;
const PROMINENCE = 10 ** (6 / 20);
const NEIGHBOURHOOD_S = 0.002;
/** Weaker ones are the room's decay, not a surface that one could point at: a choice of ours. */
const WEAKEST = 10 ** (-30 / 20);

/** A peak must stand so far above what the ringing of a stronger one can leave there. */
const ABOVE_RINGING = 2;

/**
 * Lists early reflections: peaks of the 1-8 kHz envelope that stand 6 dB above the median of the 2 ms around them, and
 * above the ringing that loudspeaker and band filter give to every stronger peak.
 *
 * Between 0.3 and 1 ms a peak may be the desk or the loudspeaker's own ringing; it is listed as `close`, since the desk is
 * the commonest early reflection in a control room.
 *
 * @param speedOfSound - m/s
 * @returns by delay; level is the peak re the direct sound's peak, its uncertainty what the sound around it can add
 */
export function findReflections(arrival: ArrivalEnvelope, speedOfSound: number): Reflection[] {
  const { stepS, directIndex, directPeak } = arrival;
  const ringing = ownRinging(arrival);
  const accepted: Peak[] = [{ at: directIndex, value: directPeak, around: 0 }];
  for (const peak of prominentPeaks(arrival).sort((a, b) => b.value - a.value)) {
    const stronger = Math.max(
      ...accepted.map((other) => other.value * (ringing[Math.round(Math.abs(other.at - peak.at))] ?? 0)),
    );
    if (peak.value > ABOVE_RINGING * stronger) accepted.push(peak);
  }
  return accepted
    .slice(1)
    .sort((a, b) => a.at - b.at)
    .map(({ at, value, around }) => {
      const delayS = (at - directIndex) * stepS;
      const polarity = samePolarity(arrival, Math.round(at)) ? 1 : -1;
      return {
        delayS,
        pathDifferenceM: delayS * speedOfSound,
        levelDb: 20 * Math.log10(value / directPeak),
        // Sound of the median's size in any phase: its root mean square effect on a level.
        levelUncertaintyDb: (20 / Math.LN10) * (around / value) * Math.SQRT1_2,
        polarity,
        firstNotchHz: polarity === 1 ? 1 / (2 * delayS) : 1 / delayS,
        close: delayS < CLOSE_S,
      };
    });
}

interface Peak {
  readonly at: number;
  readonly value: number;
  /** Median of the envelope around it. */
  readonly around: number;
}

function prominentPeaks({ envelope, stepS, directIndex, directPeak }: ArrivalEnvelope): Peak[] {
  const reach = Math.round(NEIGHBOURHOOD_S / stepS);
  const last = Math.min(envelope.length - 2, Math.floor(directIndex + LAST_S / stepS));
  const peaks: Peak[] = [];
  for (let n = Math.ceil(directIndex + FIRST_S / stepS); n <= last; n++) {
    const value = envelope[n]!;
    if (value < WEAKEST * directPeak || value <= envelope[n - 1]! || value < envelope[n + 1]!) continue;
    const around = medianOf(envelope, n - reach, n + reach);
    if (value >= PROMINENCE * around) peaks.push({ ...parabolicPeak(envelope, n), around });
  }
  return peaks;
}

/**
 * Envelope that a single arrival has around its peak: the band filter's for a perfect pulse, and within 0.3 ms, where
 * nothing is taken for a reflection, that of the direct sound itself if it is larger.
 */
function ownRinging({ envelope, stepS, directIndex, directPeak }: ArrivalEnvelope): Float64Array {
  const ringing = Float64Array.from(filterRinging(stepS));
  const direct = Math.round(directIndex);
  for (let n = 0; n < Math.min(ringing.length, FIRST_S / stepS); n++) {
    const around = Math.max(envelope[direct + n] ?? 0, envelope[direct - n] ?? 0);
    ringing[n] = Math.max(ringing[n]!, around / directPeak);
  }
  return ringing;
}

const ringingByStep = new Map<number, Float64Array>();

/** The band filter's envelope for a single pulse, re its peak, never rising, by steps from the peak. */
function filterRinging(stepS: number): Float64Array {
  const known = ringingByStep.get(stepS);
  if (known) return known;
  const sampleRate = 1 / (stepS * OVERSAMPLING);
  const size = transformSize(4 * NEIGHBOURHOOD_S * sampleRate);
  const pulse = new Float64Array(size);
  pulse[size / 2] = 1;
  const envelope = envelopeOf(analyticBand(pulse, sampleRate, OVERSAMPLING));
  const peak = (size / 2) * OVERSAMPLING;
  const ringing = envelope.slice(peak, 2 * peak).map((value) => value / envelope[peak]!);
  for (let n = ringing.length - 2; n >= 0; n--) ringing[n] = Math.max(ringing[n]!, ringing[n + 1]!);
  ringingByStep.set(stepS, ringing);
  return ringing;
}

function medianOf(values: Float64Array, from: number, to: number): number {
  // Every second sample: an envelope of 7 kHz bandwidth cannot change faster.
  const first = Math.max(0, from);
  const last = Math.min(values.length - 1, to);
  const stride = 2 * OVERSAMPLING;
  const picked = new Float64Array(Math.floor((last - first) / stride) + 1);
  for (let k = 0; k < picked.length; k++) picked[k] = values[first + k * stride]!;
  picked.sort();
  return picked[picked.length >> 1]!;
}

/** The phase under the peak against the phase under the direct sound's. */
function samePolarity({ analytic, directIndex }: ArrivalEnvelope, index: number): boolean {
  const direct = Math.round(directIndex);
  const product =
    analytic.values[2 * index]! * analytic.values[2 * direct]! +
    analytic.values[2 * index + 1]! * analytic.values[2 * direct + 1]!;
  return product >= 0;
}
