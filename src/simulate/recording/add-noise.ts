import { backgroundNoise } from "./noise.js";

/** Levels are RMS, dB re a root mean square of full scale, 1. */
export interface RecordedNoise {
  /** 20 Hz to 20 kHz. */
  readonly pinkDbRms?: number;
  /** Pink noise by its distance from the recorded sound's longest stretch, RMS to RMS. */
  readonly signalToNoiseDb?: number;
  readonly whiteDbRms?: number;
  readonly hum?: { readonly frequencyHz: number; readonly dbRms: number };
}

/**
 * Adds noise and hum to a recording.
 *
 * @param recording - is added to
 * @param sampleRate - Hz
 * @param noise - what is not stated is not there
 * @param seed - whole number; the same seed makes the same noise
 * @param signalRms - root mean square that `signalToNoiseDb` is counted from
 */
export function addNoise(
  recording: Float64Array,
  sampleRate: number,
  { pinkDbRms = -Infinity, signalToNoiseDb = Infinity, whiteDbRms = -Infinity, hum }: RecordedNoise,
  seed: number,
  signalRms: number,
): void {
  const pinkRms = Math.hypot(10 ** (pinkDbRms / 20), signalRms * 10 ** (-signalToNoiseDb / 20));
  const whiteRms = 10 ** (whiteDbRms / 20);
  if (pinkRms > 0 || whiteRms > 0) {
    const noise = backgroundNoise(recording.length, sampleRate, { pinkRms, whiteRms }, seed);
    for (let n = 0; n < recording.length; n++) recording[n]! += noise[n]!;
  }
  if (hum) {
    const peak = Math.SQRT2 * 10 ** (hum.dbRms / 20);
    const step = (2 * Math.PI * hum.frequencyHz) / sampleRate;
    for (let n = 0; n < recording.length; n++) recording[n]! += peak * Math.sin(step * n);
  }
}
