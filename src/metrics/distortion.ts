import { fadeEnds } from "../dsp/fade-ends.js";
import { forwardReal, transformSize } from "../dsp/fft.js";
import { fractionalOctaveEdges, type LogPower, logPower, powerOf } from "../dsp/log-power.js";
import { noiseAt } from "../dsp/noise-at.js";
import type { Distortion, HarmonicResponse, ImpulseResponse } from "../model.js";

const STEPS_PER_DECADE = 40;
const SMOOTHING_FRACTION = 12;
const NOISE_MARGIN_DB = 6;
const LEAST_CYCLES = 5;
const FALL_SHARE = 0.25;

/**
 * Harmonic distortion by exciting frequency: the level at n f re the level at f, both at the microphone.
 *
 * @param impulse - the linear response
 * @param steady - its steady-state power
 * @param takes - harmonic responses, one list per take; their powers are averaged
 * @param averaged - how many takes the linear response is the mean of, so that its noise is so much lower than one take's
 * @returns null entries outside the sweep, within 6 dB of the noise, and where the distance to the next harmonic's response
 *   holds under 5 cycles of the harmonic; null when nothing was separated
 * @remarks Source: A. Farina, AES 108 (2000).
 */
export function measureDistortion(
  impulse: ImpulseResponse,
  steady: LogPower,
  takes: readonly (readonly HarmonicResponse[])[],
  averaged = takes.length,
): Distortion | null {
  const orders = takes[0]?.map((harmonic) => harmonic.order) ?? [];
  if (orders.length === 0) return null;
  const [startHz, endHz] = impulse.sweptHz;
  const first = Math.ceil(STEPS_PER_DECADE * Math.log10(startHz / 1000));
  const last = Math.floor(STEPS_PER_DECADE * Math.log10(endHz / 2 / 1000));
  const frequencyHz = Array.from(
    { length: Math.max(0, last - first + 1) },
    (_, n) => 1000 * 10 ** ((first + n) / STEPS_PER_DECADE),
  );
  const harmonicsDb: Record<string, (number | null)[]> = {};
  for (const [place, order] of orders.entries()) {
    const powers = takes.flatMap((take) => (take[place] ? [windowedPower(take[place])] : []));
    const gapS = takes[0]?.[place]?.gapS ?? 0;
    harmonicsDb[order] = frequencyHz.map((hz) => {
      const harmonicHz = order * hz;
      const edges = fractionalOctaveEdges(harmonicHz, SMOOTHING_FRACTION);
      if (edges[1] > endHz || gapS * harmonicHz < LEAST_CYCLES) return null;
      const power = mean(powers.map((one) => one.power.mean(...edges)));
      const noiseS = mean(powers.map((one) => one.noiseS));
      const noise = impulse.noise ? noiseAt(impulse.noise, harmonicHz) * averaged * noiseS : 0;
      const linear = steady.mean(...fractionalOctaveEdges(hz, SMOOTHING_FRACTION));
      if (!(linear > 0) || !(power > 10 ** (NOISE_MARGIN_DB / 10) * noise)) return null;
      return 10 * Math.log10(power / linear);
    });
  }
  const thdPercent = frequencyHz.map((_, k) => {
    const known = Object.values(harmonicsDb).flatMap((levels) => levels[k] ?? []);
    if (known.length === 0) return null;
    return 100 * Math.sqrt(known.reduce((sum, levelDb) => sum + 10 ** (levelDb / 10), 0));
  });
  return { frequencyHz, harmonicsDb, thdPercent };
}

function windowedPower(harmonic: HarmonicResponse): { power: LogPower; noiseS: number } {
  const { samples, sampleRate, arrivalSample } = harmonic;
  const fall = FALL_SHARE * (samples.length - arrivalSample);
  const { faded, windowEnergy } = fadeEnds(samples, samples.length, arrivalSample, fall);
  const size = transformSize(2 * samples.length);
  return { power: logPower(powerOf(forwardReal(faded, size)), sampleRate / size), noiseS: windowEnergy / sampleRate };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
