import type { LowResponse } from "./low-response.js";
import { bandwidthHz, type Pole } from "./pole.js";

/** One mode as it rings in one response: from the arrival on, amplitude exp(-damping t) cos(2 pi f t + phase). */
export interface RingingMode extends Pole {
  readonly amplitude: number;
  readonly phase: number;
}

/** Places looked at over half a bandwidth to either side. */
const PLACES = 9;

/**
 * How far modes raise the response about their middle: the response over what it would be without them.
 *
 * @param modes - that ring in this response together: one, or a group
 * @returns dB at the place where it is most; below 0 where they only take away from it
 */
export function bumpDb({ samples, sampleRate }: LowResponse, modes: readonly RingingMode[]): number {
  let most = Number.NEGATIVE_INFINITY;
  for (const mode of modes) {
    const half = 0.5 * bandwidthHz(mode);
    for (let place = 0; place < PLACES; place++) {
      const hz = mode.frequencyHz + half * ((2 * place) / (PLACES - 1) - 1);
      const [re, im] = spectrumAt(samples, sampleRate, hz);
      const own = modes.map((one) => ringingAt(one, hz, sampleRate));
      const leftR = re - own.reduce((sum, [r]) => sum + r, 0);
      const leftI = im - own.reduce((sum, [, i]) => sum + i, 0);
      most = Math.max(most, 20 * Math.log10(Math.hypot(re, im) / Math.hypot(leftR, leftI)));
    }
  }
  return most;
}

function spectrumAt(samples: Float64Array, sampleRate: number, hz: number): [number, number] {
  const turn = (-2 * Math.PI * hz) / sampleRate;
  let re = 0;
  let im = 0;
  for (const [n, value] of samples.entries()) {
    re += value * Math.cos(turn * n);
    im += value * Math.sin(turn * n);
  }
  return [re, im];
}

/** Spectrum of a mode that begins at the arrival, per sample: the turning backwards included. */
function ringingAt(mode: RingingMode, hz: number, sampleRate: number): [number, number] {
  const { amplitude, phase, frequencyHz, dampingPerS } = mode;
  let re = 0;
  let im = 0;
  for (const sign of [1, -1]) {
    // Half the amplitude each way, over damping + i (w - w0).
    const turn = 2 * Math.PI * (hz - sign * frequencyHz);
    const scale = (0.5 * amplitude * sampleRate) / (dampingPerS ** 2 + turn ** 2);
    const [c, s] = [Math.cos(phase), sign * Math.sin(phase)];
    re += scale * (c * dampingPerS + s * turn);
    im += scale * (s * dampingPerS - c * turn);
  }
  return [re, im];
}
